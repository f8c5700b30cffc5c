#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace engine
{

/** Qualities of the two pairs of poles of a Butterworth filter of fourth order. */
inline constexpr double butterworthQualities[2] = { 0.541196100146197, 1.306562964876377 };

/** Coefficients of a high-pass by the bilinear transform. */
template <typename Scalar>
struct HighPassShape
{
    Scalar gain = 1, back1 = 0, back2 = 0;
    Scalar twice = 0; ///< 1: differences are taken twice, 0: once

    /** The gain is 1/√2 at the corner. Hz, below half the rate. */
    static HighPassShape onePole (double corner, double rate) noexcept
    {
        const double k = std::tan (std::numbers::pi * corner / rate);
        return { static_cast<Scalar> (1.0 / (1.0 + k)), static_cast<Scalar> ((1.0 - k) / (1.0 + k)), 0, 0 };
    }

    static HighPassShape twoPoles (double corner, double quality, double rate) noexcept
    {
        const double k = std::tan (std::numbers::pi * corner / rate), norm = 1.0 / (1.0 + k / quality + k * k);
        return { static_cast<Scalar> (norm), static_cast<Scalar> (2.0 * (1.0 - k * k) * norm),
                 static_cast<Scalar> (-(1.0 - k / quality + k * k) * norm), 1 };
    }
};

/** What such a filter remembers, for channels side by side. */
template <typename Scalar, std::size_t channels>
struct HighPass
{
    using Values = std::array<Scalar, channels>;
    Values x1{}, x2{}, y1{}, y2{};

    Values next (const Values& x, const HighPassShape<Scalar>& shape) noexcept
    {
        Values y;
        for (std::size_t i = 0; i < channels; ++i)
        {
            y[i] = shape.gain * (x[i] - x1[i] - shape.twice * (x1[i] - x2[i])) + shape.back1 * y1[i] + shape.back2 * y2[i];
            x2[i] = x1[i];
            x1[i] = x[i];
            y2[i] = y1[i];
            y1[i] = y[i];
        }
        return y;
    }

    Scalar next (Scalar x, const HighPassShape<Scalar>& shape) noexcept requires (channels == 1)
    {
        return next (Values{ x }, shape)[0];
    }
};

} // namespace engine
