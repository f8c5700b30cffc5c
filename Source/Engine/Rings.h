#pragma once

#include "Bank.h"

#include <vector>

namespace engine
{

/** The bending modes of the batter hoop and of the shell below the upper frequency limit, n = 2 to 8, cosine and sine of each. */
std::vector<RingMode> ringModes (const DrumSetup&);

} // namespace engine
