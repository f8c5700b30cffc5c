#pragma once

#include "Modal/DrumSpec.h"

namespace fitting
{

/** A head's mass counts as unknown if more than this share of its prior standard deviation is left after listening. */
inline constexpr double unresolvedMass = 0.6;

/** The drum with the mass of one head multiplied by a ratio, by way of the ply's thickness, which has no other effect in a fit.
 */
modal::DrumSpec withHeadMass (modal::DrumSpec, modal::HeadSide, double ratio);

} // namespace fitting
