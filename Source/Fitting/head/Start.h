#pragma once

#include "Fitting/Head.h"

namespace fitting
{

/** A first guess of the tension: one whose family of modes (1,1) to (4,1) is near the partials that stand out. */
struct HeadStart
{
    double tension = 0.0; ///< N/m
    double match = 0.0;   ///< 0 to 1: share of the expected modes that were heard at the right place
};

/** The best few among a hundred tensions from slack to the film's yield, best first; none if nothing matches. Families an octave
   or a fifth apart share partials, so that only a whole fit decides between them. */
std::vector<HeadStart> headStarts (const HeadFitSetup&, const std::vector<HeardTap>&);

} // namespace fitting
