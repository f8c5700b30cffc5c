#pragma once

#include "FitHead.h"

namespace modal
{

/** A first guess of the tension: the one, among a hundred from slack to the film's yield, whose family of modes (1,1) to (4,1) is
   nearest to the partials that stand out. */
struct FitStart
{
    double tension = 0.0; ///< N/m
    double match = 0.0;   ///< 0 to 1: share of the expected modes that were heard at the right place
};

FitStart startOfFit (const HeadFitSetup&, const std::vector<HeardTap>&);

} // namespace modal
