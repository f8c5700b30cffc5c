#pragma once

#include "DrumSpec.h"

namespace modal
{

/** The drum with one head's film and coating heavier by a ratio: by the film's thickness, which carries no other meaning in a
 * fit. */
DrumSpec withHeadMass (DrumSpec, HeadSide, double ratio);

} // namespace modal
