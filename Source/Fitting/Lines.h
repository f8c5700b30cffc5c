#pragma once

#include "Partial.h"

#include <vector>

namespace fitting
{

/** One note of the drum, as all strikes together heard it. */
struct Line
{
    double frequency = 0.0;  ///< Hz
    double error = 0.0;      ///< Hz, one standard deviation by the recordings' noise
    double decay = 0.0;      ///< 1/s
    double decayError = 0.0; ///< 1/s
    double loudness = 0.0;   ///< 0 to 1: amplitude 0.12 s after the blow over that of the strike's strongest note
    int strikes = 0;         ///< that heard it

    /** 0 to 1: how much it counts as a mode of the drum rather than the room's answer or noise. */
    double weight() const noexcept;
};

/** What at least half of several taps have in common, ascending in frequency: the room and noise differ from tap to tap. Partners
   of a pair that uneven lugs part by some cents count as one.

    @param taps  the partials of each; `strikes` of a line counts them */
std::vector<Line> commonLines (const std::vector<std::vector<Partial>>& taps);

/** Those up to four and a half times the lowest loud one: above, modes lie so densely that a line near one says nothing. They
   ascend in frequency. */
std::vector<Line> tellingLines (std::vector<Line>);

/** Hz, of the lowest line that is clearly heard: one of the drum's lowest modes. There must be lines. */
double lowestLoud (const std::vector<Line>&);

} // namespace fitting
