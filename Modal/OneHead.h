#pragma once

#include "DrumSpec.h"

namespace modal
{

/** The drum that a tap note is defined on: one head over a closed cavity, the other head held still. That head comes back as
   `batter`, with whatever muffling lies on it. */
DrumSpec withOneHead (DrumSpec, HeadSide);

} // namespace modal
