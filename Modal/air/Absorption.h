#pragma once

#include "Air.h"

namespace modal
{

/** How fast a sound loses level in air of this weather, dB per metre, by ISO 9613-1.

    @param frequency   Hz; the standard gives 50 Hz to 10 kHz as its range */
double airAbsorption (const Weather&, double frequency) noexcept;

} // namespace modal
