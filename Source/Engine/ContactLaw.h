#pragma once

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** x^exponent for x ≥ 0; the exponents of Hertz's law avoid std::pow, which would cost more than the rest of the contact. */
inline double power (double x, double exponent) noexcept
{
    if (exponent == 1.5)
        return x * std::sqrt (x);
    if (exponent == 2.5)
        return x * x * std::sqrt (x);
    return std::pow (x, exponent);
}

/** Energy stored in a one-sided power-law spring, J: K/(p+1)·compression^(p+1) while compressed. */
inline double storedEnergy (double stiffness, double exponent, double compression) noexcept
{
    return compression > 0.0 ? stiffness / (exponent + 1.0) * power (compression, exponent + 1.0) : 0.0;
}

inline double springForce (double stiffness, double exponent, double compression) noexcept
{
    return compression > 0.0 ? stiffness * power (compression, exponent) : 0.0;
}

/** Result of a contact over two samples, from `compression` to `compression + move`. */
struct ContactStep
{
    double move;  ///< m
    double force; ///< N, spring and loss together
};

/** Solves move = free move - mobility·force for a one-sided power-law contact whose force is the discrete gradient of its stored
   energy (Chatziioannou & van Walstijn 2015) plus loss·move.

    Left minus right side increases with `move`, so there is one root, and Newton's method inside a bracket always finds it.
   `mobility` and `loss` (N/m) are not negative.
   @param force      N, first guess of the force
   @param precision  of the move, relative to compression and free move */
inline ContactStep solveContact (double compression, double freeMove, double mobility, double stiffness, double exponent,
                                 double loss, double force = 0.0, double precision = 1.0e-15) noexcept
{
    const double before = storedEnergy (stiffness, exponent, compression);
    const double scale = std::abs (compression) + std::abs (freeMove);

    // For a small move the difference of energies would be lost in rounding, which matters for a stiff tip on a soft head.
    const auto isSmall = [&] (double move) { return std::abs (move) < 1.0e-3 * compression; };
    const auto gradient = [&] (double move)
    {
        if (move != 0.0 && isSmall (move))
            return before * std::expm1 ((exponent + 1.0) * std::log1p (move / compression)) / move;
        if (std::abs (move) < 1.0e-7 * scale)
            return springForce (stiffness, exponent, compression + 0.5 * move);
        return (storedEnergy (stiffness, exponent, compression + move) - before) / move;
    };
    // Derivative of gradient(): (force at the end - mean force) / move, not negative; half the spring's slope for a small move.
    const auto slope = [&] (double move, double mean)
    {
        if (isSmall (move))
            return 0.5 * exponent * springForce (stiffness, exponent, compression) / compression;
        if (std::abs (move) < 1.0e-7 * scale)
            return 0.0;
        return std::max (0.0, (springForce (stiffness, exponent, compression + move) - mean) / move);
    };

    // The spring's force is between 0 and that of the largest compression in play, which brackets the root.
    if (loss == 0.0 && compression <= 0.0 && compression + freeMove <= 0.0)
        return { freeMove, 0.0 };
    const double deepest = std::max (compression, compression + freeMove);
    double low = std::min (freeMove, 0.0) - mobility * springForce (stiffness, exponent, deepest) - scale;
    double high = std::max (freeMove, 0.0) + scale;

    double move = std::min (std::max (freeMove - mobility * force, low), high);
    for (int i = 0; i < 200; ++i)
    {
        const double spring = gradient (move);
        const double miss = move * (1.0 + mobility * loss) + mobility * spring - freeMove;
        if (miss > 0.0)
            high = move;
        else
            low = move;
        const double steepness = 1.0 + mobility * (loss + slope (move, spring));
        double next = move - miss / steepness;
        if (! (next > low && next < high))
            next = 0.5 * (low + high);
        // As close as rounding allows: with a stiff tip on a soft head the move is a tiny part of the free move.
        if (std::abs (next - move) <= precision * scale / steepness)
        {
            move = next;
            break;
        }
        move = next;
    }
    return { move, gradient (move) + loss * move };
}

} // namespace
} // namespace engine
