#pragma once

#include "Fitting/Head.h"

namespace fitting
{

/** A start value of the tension, whose modes (1,1) to (4,1) are near strong partials. */
struct HeadStart
{
    double tension = 0.0; ///< N/m
    double match = 0.0;   ///< 0 to 1: agreement of the modes with the partials
};

/** The best of a hundred tensions from slack to yield, best first; empty if nothing matches. Tensions an octave or a fifth apart
   share partials, so that only a whole fit decides between them. */
std::vector<HeadStart> headStarts (const HeadFitSetup&, const std::vector<HeardTap>&);

} // namespace fitting
