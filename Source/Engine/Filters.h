#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace engine
{

/** Q of the four pole pairs of an eighth-order Butterworth filter. */
inline constexpr double butterworthQualities[4] = { 0.5097955791041592, 0.6013448869350453, 0.8999762231364156, 2.5629154477415055 };

/** Coefficients of a two-pole high-pass (bilinear transform). */
template <typename Scalar>
struct HighPassCoefficients
{
    Scalar gain = 0, back1 = 0, back2 = 0;

    /** Corner in Hz, below half the rate. */
    static HighPassCoefficients twoPoles (double corner, double quality, double rate) noexcept
    {
        const double k = std::tan (std::numbers::pi * corner / rate), norm = 1.0 / (1.0 + k / quality + k * k);
        return { static_cast<Scalar> (norm), static_cast<Scalar> (2.0 * (1.0 - k * k) * norm),
                 static_cast<Scalar> (-(1.0 - k / quality + k * k) * norm) };
    }
};

/** Filter state for several channels. */
template <typename Scalar, std::size_t channels>
struct HighPassState
{
    using Values = std::array<Scalar, channels>;
    Values x1{}, x2{}, y1{}, y2{};

    Values next (const Values& x, const HighPassCoefficients<Scalar>& shape) noexcept
    {
        Values y;
        for (std::size_t i = 0; i < channels; ++i)
        {
            y[i] = shape.gain * ((x[i] - x1[i]) - (x1[i] - x2[i])) + shape.back1 * y1[i] + shape.back2 * y2[i];
            x2[i] = x1[i];
            x1[i] = x[i];
            y2[i] = y1[i];
            y1[i] = y[i];
        }
        return y;
    }
};

/** One-pole high-passes for several channels, each with its own corner frequency. */
template <typename Scalar, std::size_t channels>
class OnePoleHighPasses
{
public:
    using Values = std::array<Scalar, channels>;

    /** The gain is 1/√2 at the corner, which is in Hz and below half the rate. */
    void set (std::size_t channel, double corner, double rate) noexcept
    {
        const double k = std::tan (std::numbers::pi * corner / rate);
        gain[channel] = static_cast<Scalar> (1.0 / (1.0 + k));
        back[channel] = static_cast<Scalar> ((1.0 - k) / (1.0 + k));
    }

    void reset() noexcept { x1 = y1 = {}; }

    Values next (const Values& x) noexcept
    {
        for (std::size_t i = 0; i < channels; ++i)
            y1[i] = gain[i] * (x[i] - x1[i]) + back[i] * y1[i];
        x1 = x;
        return y1;
    }

private:
    Values gain{}, back{}, x1{}, y1{};
};

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
