#pragma once

#include "Modal/DrumSpec.h"

namespace modal
{

/** The drum that a tap note is defined on: one head over a closed cavity, the other head held still. That head comes back as
   `batter`, with whatever muffling lies on it. */
DrumSpec withOneHead (DrumSpec, HeadSide);

/** The drum as a lug check of one head hears it: the same, but a drum that is open below has no other head to hold still and
   stays open. */
DrumSpec asTapped (DrumSpec, HeadSide);

/** The whole drum with that head as `batter`: as it is, or turned over. */
DrumSpec withHeadOnTop (DrumSpec, HeadSide);

} // namespace modal
