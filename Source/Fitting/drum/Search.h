#pragma once

#include "Iteration.h"

#include <vector>

namespace fitting
{

/** ln of the probability ratio from which an alternative is mentioned, and from which it is believed: odds of 4 and of 20. Kass &
    Raftery, "Bayes factors", J. Am. Stat. Assoc. 90 (1995) 773 (from memory) call 1 to 3 positive, 3 to 5 strong, more very
    strong. */
inline constexpr double clearlyBetter = 1.5, surelyBetter = 3.0;

/** The same from which taps of one head are refused, because the other head rings. */
inline constexpr double certainlyBetter = 6.0;

/** Limits of a fit that explains its lines: largest misfit in standard deviations, smallest evidence() per weight. */
inline constexpr double goodMisfit = 1.8, goodEvidence = 1.2;

/** evidence() per weight below which a model with the errors of real drums explains lines no better than chance, and below which
   it does so hardly better. Simulated real drums reach 1.0 to 1.8, a recorded snare's partials 0.3 to 0.7, lines at random at
   most 0. */
inline constexpr double leastEvidence = 0.15, littleEvidence = 0.7;

/** Tries a grid of tunings and iterates from the best; then, beside the most plausible, tries the resonant head at each tension
   from slack to yield. Different tunings, most plausible first, empty if no tuning gives the lines. With one head the grid has
   one dimension. Setup and lines must outlive the result. */
std::vector<DrumIteration> searchDrum (const DrumFitSetup&, const std::vector<Line>&);

/** Iterates on another drum from the tunings that give it the notes of `fits` without air: the best four alone. Much quicker than
   a search, since drums of all sizes can have the same notes but for their air. */
std::vector<DrumIteration> followOnOther (const DrumFitSetup& other, const std::vector<Line>&,
                                          const std::vector<DrumIteration>& fits);

} // namespace fitting
