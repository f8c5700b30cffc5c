#pragma once

#include "Bank.h"

#include <vector>

namespace engine
{

/** The bending modes of the batter hoop and of the shell that fit below the sampled band, n = 2 to 8, both partners of each, and those of
    the hoop up and down, n = 0 to 8. */
std::vector<RingMode> ringModes (const DrumSetup&);

} // namespace engine
