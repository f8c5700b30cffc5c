#pragma once

#include "Values.h"

#include "Place/Room.h"

#include <memory>

namespace plugin
{

/** The room in which the drum is heard, for the sound at the distant microphone; null if the place is off. `sampleRate` in Hz. */
std::unique_ptr<place::Room> playedRoom (const Values&, double sampleRate);

/** s, the longest reverberation time of the place; 0 without a place and in the open air. */
double reverberationOf (const Values&);

} // namespace plugin
