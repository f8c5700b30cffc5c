#pragma once

#include <cmath>

namespace plugin
{

/** Highest level that ever leaves the plugin: 6 dB above full scale. */
inline constexpr float highestSample = 2.0f;

/** Keeps a sample within ±highestSample. Caution: a hard stroke close to a microphone, or a drum that is changed while it rings,
    can be far above full scale, and a converter or headphones without a limit of their own could harm hearing.

    Up to full scale the sample comes back as it is, bit for bit; above it bends, with the same slope at full scale, towards the
    ceiling. NaN becomes silence. */
inline float belowCeiling (float sample) noexcept
{
    const float size = std::abs (sample);
    if (size <= 1.0f)
        return sample;
    if (! std::isfinite (sample))
        return 0.0f;
    constexpr float room = highestSample - 1.0f;
    return std::copysign (1.0f + room * std::tanh ((size - 1.0f) / room), sample);
}

} // namespace plugin
