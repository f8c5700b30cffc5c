#pragma once

#include "Files/Json.h"
#include "Finding/TuningMap.h"

#include <optional>
#include <vector>

namespace web
{

/** The map of one drum, solved one batter note at a time, so that the solver's thread can answer other requests in between. */
class MapSession
{
public:
    /** @param step  cents between neighbouring notes, at most
        @throws modal::InputError for a drum without a resonant head */
    MapSession (const modal::DrumSpec&, double step);

    std::size_t columns() const noexcept { return batter.notes.size(); } ///< batter notes

    /** The notes and limits of both heads, and the tunings of one batter note with every resonant one whose interval, in
       semitones, is not outside these; the others are null. */
    files::Json column (std::size_t index, double lowestInterval, double highestInterval);

    /** The tunings that were solved so far. */
    std::shared_ptr<const finding::TuningMap> map() const;

    const modal::DrumTuner& drumTuner() const noexcept { return tuner; }
    const modal::DrumSolver& drumSolver() const noexcept { return solver; }
    const finding::MapArea& prudentArea() const noexcept { return prudent; } ///< both heads below half of their yield strength

private:
    struct Head
    {
        std::vector<double> notes, tensions; ///< Hz, N/m
        bool endsAtYield = false;            ///< otherwise the highest note ends where an air mode begins
    };

    modal::DrumTuner tuner;
    modal::DrumSolver solver;
    finding::MapArea whole, prudent;
    Head batter, resonant;
    std::vector<std::optional<finding::MapPoint>> points; ///< solved so far; the resonant note runs fastest

    Head headOf (modal::HeadSide, double step) const;
    const finding::MapPoint& solvedPoint (std::size_t b, std::size_t r);
    static files::Json asJson (const Head&, double halfOfYield);
};

} // namespace web
