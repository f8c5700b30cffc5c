#pragma once

#include "Partial.h"

#include <vector>

namespace fitting
{

/** A note of the drum, estimated from all strikes together. */
struct Line
{
    double frequency = 0.0;  ///< Hz, at rest
    double error = 0.0;      ///< Hz, one standard deviation by the recordings' noise
    double decay = 0.0;      ///< 1/s
    double decayError = 0.0; ///< 1/s
    double rise = 0.0;       ///< how far it starts above that frequency in the hardest strike, relative
    double loudness = 0.0;   ///< 0 to 1: amplitude 0.12 s after the blow over that of the strike's strongest note
    int strikes = 0;         ///< number of strikes that contain it

    /** 0 to 1: weight as a mode of the drum rather than room response or noise. */
    double weight() const noexcept;
};

/** Notes that at least half of the taps share, ascending in frequency; room and noise differ from tap to tap. Two partners of a
   mode that uneven lugs split by a few cents count as one.

    @param taps  the partials of each; `strikes` of a line counts them */
std::vector<Line> commonLines (const std::vector<std::vector<Partial>>& taps);

/** Lines up to 4.5 times the lowest loud one. Higher modes lie so densely that a line near one proves nothing. */
std::vector<Line> tellingLines (std::vector<Line>);

/** True if nearly all of the lines' weight is in the harmonics of one pitch, the first five and more: a voice or a string. No drum has
    such modes; those of a kettledrum begin near 2 : 3 : 4. */
bool areHarmonics (const std::vector<Line>& lines);

/** Frequency in Hz of the lowest loud line, which is one of the drum's lowest modes. `lines` must not be empty. */
double lowestLoud (const std::vector<Line>& lines);

} // namespace fitting
