#pragma once

#include "Song.h"
#include "TuningMap.h"

#include "Modal/hardware/Fittings.h"
#include "Place/AtListener.h"

namespace finding
{

/** How strokes are played, and where they are heard. */
struct Playing
{
    modal::Fittings fittings;
    Hand hand;
    std::optional<place::Place> place{}; ///< for how far the wires carry, which takes another stroke
};

/** Sets the figures of played strokes (FigureInfo::isPlayed) of one tuning: the player's usual stroke, and the softest one at the
   same place that the wires answer. Takes some tenths of a second. Throws modal::InputError for a drum that cannot be played. */
void addPlayed (Figures&, const modal::DrumSpec&, const modal::Tensions&, const Playing&);

/** Figures of played strokes over the plane of both tap notes. Playing takes a hundred times as long as solving, so few tunings
   are played and those between are interpolated. How far off that is at most tunings, errors() says. Immutable once made. */
class PlayedMap
{
public:
    /** Plays tunings some `step` cents apart; see TuningMap::make(). Those with the resonant head more than a fifth below the
       batter or a ninth above are left out, for few are tuned so (common practice, no source): their figures are not known. */
    static std::shared_ptr<const PlayedMap> make (const modal::DrumTuner&, const Playing&, const MapArea&, double step,
                                                  unsigned threads, const std::atomic<bool>& cancel,
                                                  const std::function<void (double)>& progress = {});

    /** Sets the figures of played strokes at a tuning; leaves them outside the map. Infinite where no stroke wakes the wires. */
    void addTo (Figures&, double batterNote, double resonantNote) const;

    /** Plays a tuning itself, as addPlayed() does. */
    void play (Figures&, const modal::DrumTuner&, double batterNote, double resonantNote) const;

    /** Of each figure, what nine of ten tunings stay within, in steps: found by leaving out each inner tuning and interpolating
       it from its neighbours, which are twice as far apart. 0 for figures that are not played. */
    const Figures& errors() const noexcept { return error; }

private:
    Playing playing;
    std::vector<double> batter, resonant; ///< Hz
    std::vector<Figures> points;          ///< the resonant note runs fastest
    Figures error{};

    const Figures& point (std::size_t b, std::size_t r) const { return points[b * resonant.size() + r]; }
    Figures estimatedErrors() const;
};

/** Cents between played tunings that keep a map of a drum to fewer than a hundred. */
inline constexpr double playedStep = 300.0;

} // namespace finding
