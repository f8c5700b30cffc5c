#pragma once

#include "Modal/DrumSpec.h"

namespace fitting
{

/** The drum with one head's film and coating heavier by a ratio: by the film's thickness, which carries no other meaning in a
 * fit. */
modal::DrumSpec withHeadMass (modal::DrumSpec, modal::HeadSide, double ratio);

} // namespace fitting
