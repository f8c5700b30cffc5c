#pragma once

#include "Iteration.h"

#include <vector>

namespace fitting
{

/** ln of the ratio of probabilities from which something else than what is thought is to be reckoned with, and from which another
    drum than the one stated is believed. */
inline constexpr double clearlyBetter = 1.5, surelyBetter = 3.0;

/** What is left over at most, in standard deviations, and ln of the ratio to lines from nowhere that a line of full weight has at
    least, where a fit explains its lines. */
inline constexpr double goodMisfit = 1.8, goodEvidence = 1.2;

/** A grid of tunings tried and the best starts followed; the most plausible first, none if no tuning gives the lines. A drum with
    one head is searched along its one tension. Setup and lines must outlive the result. */
std::vector<DrumIteration> searchDrum (const DrumFitSetup&, const std::vector<Line>&);

} // namespace fitting
