#pragma once

#include "Modal/DrumSpec.h"

namespace fitting
{

/** The drum with the mass of one head multiplied by a ratio, by way of the ply's thickness, which has no other effect in a fit.
 */
modal::DrumSpec withHeadMass (modal::DrumSpec, modal::HeadSide, double ratio);

} // namespace fitting
