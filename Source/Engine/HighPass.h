#pragma once

#include <cmath>
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

/** What such a filter remembers. */
template <typename Scalar>
struct HighPass
{
    Scalar x1 = 0, x2 = 0, y1 = 0, y2 = 0;

    Scalar next (Scalar x, const HighPassShape<Scalar>& shape) noexcept
    {
        const Scalar y = shape.gain * (x - x1 - shape.twice * (x1 - x2)) + shape.back1 * y1 + shape.back2 * y2;
        x2 = x1;
        x1 = x;
        y2 = y1;
        y1 = y;
        return y;
    }
};

} // namespace engine
