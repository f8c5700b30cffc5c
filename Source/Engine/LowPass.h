#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace engine
{

/** One-pole low-passes (bilinear transform) for several channels with one corner frequency. */
template <typename Scalar, std::size_t channels>
class OnePoleLowPasses
{
public:
    using Values = std::array<Scalar, channels>;

    /** The gain is 1/√2 at the corner, which is in Hz and below half the rate. */
    void set (double corner, double rate) noexcept
    {
        const double k = std::tan (std::numbers::pi * corner / rate);
        gain = static_cast<Scalar> (k / (1.0 + k));
        back = static_cast<Scalar> ((1.0 - k) / (1.0 + k));
    }

    void reset() noexcept { x1 = y1 = {}; }

    Values next (const Values& x) noexcept
    {
        for (std::size_t i = 0; i < channels; ++i)
            y1[i] = gain * (x[i] + x1[i]) + back * y1[i];
        x1 = x;
        return y1;
    }

private:
    Scalar gain = 0, back = 0;
    Values x1{}, y1{};
};

} // namespace engine
