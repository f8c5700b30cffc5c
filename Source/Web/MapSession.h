#pragma once

#include "Files/Json.h"
#include "Finding/TuningMap.h"

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
    files::Json column (std::size_t index, double lowestInterval, double highestInterval) const;

private:
    struct Head
    {
        std::vector<double> notes, tensions; ///< Hz, N/m
        double halfOfYield = 0.0;            ///< Hz, the tap note there
        bool endsAtYield = false;            ///< otherwise the highest note ends where an air mode begins
    };

    modal::DrumTuner tuner;
    modal::DrumSolver solver;
    Head batter, resonant;

    Head headOf (modal::HeadSide, modal::NoteRange whole, modal::NoteRange prudent, double step) const;
    static files::Json asJson (const Head&);
};

} // namespace web
