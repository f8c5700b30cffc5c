#pragma once

#include "Iteration.h"
#include "Rival.h"

#include <optional>

namespace fitting
{

/** Why no state of the head can be given; empty if one can. @param best  the best fit, none if no start led to one */
std::vector<Finding> refusals (const HeadFitSetup&, const std::vector<HeardTap>&, const std::optional<HeadIteration>& best,
                               const std::optional<Rival>&);

/** Adds what makes the estimates doubtful, and what they leave open. */
void addRemarks (HeadFit&, const HeadFitSetup&, const std::vector<HeardTap>&, const HeadIteration&, const std::optional<Rival>&);

} // namespace fitting
