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

/** A move of a contact from `compression`: the mean of its spring's force over the move, which is the discrete gradient of the
   energy stored, and how that grows with the move, N/m, not negative. */
class PowerLawMove
{
public:
    PowerLawMove (double compression, double scaleToUse, double stiffnessToUse, double exponentToUse) noexcept
        : from (compression), scale (scaleToUse), stiffness (stiffnessToUse), exponent (exponentToUse),
          before (storedEnergy (stiffness, exponent, compression))
    {
    }

    double mean (double move) const noexcept
    {
        if (move != 0.0 && isSmall (move))
            return before * std::expm1 ((exponent + 1.0) * std::log1p (move / from)) / move;
        if (std::abs (move) < 1.0e-7 * scale)
            return springForce (stiffness, exponent, from + 0.5 * move);
        return (storedEnergy (stiffness, exponent, from + move) - before) / move;
    }

    double slope (double move, double mean) const noexcept
    {
        if (isSmall (move))
            return 0.5 * exponent * springForce (stiffness, exponent, from) / from;
        if (std::abs (move) < 1.0e-7 * scale)
            return 0.0;
        return std::max (0.0, (springForce (stiffness, exponent, from + move) - mean) / move);
    }

private:
    double from, scale, stiffness, exponent, before;

    /** For a small move the difference of energies would be lost in rounding, which matters for a stiff tip on a soft head. */
    bool isSmall (double move) const noexcept { return std::abs (move) < 1.0e-3 * from; }
};

/** The same for Hertz's law, exponent 3/2, without powers and without the difference of like numbers: with a² and b² compressed
   at the ends, (b⁵ - a⁵)/(b² - a²) is a polynomial over a + b. */
class HertzMove
{
public:
    HertzMove (double compression, double stiffnessToUse) noexcept
        : from (compression), stiffness (stiffnessToUse), in (std::max (0.0, compression)), a (std::sqrt (in))
    {
    }

    double mean (double move) const noexcept
    {
        const double out = std::max (0.0, from + move), b = std::sqrt (out), ab = a * b;
        if (a + b <= 0.0)
            return 0.0;
        const double whole = 0.4 * stiffness * (in * in + out * out + ab * (in + out + ab)) / (a + b);
        return from >= 0.0 && from + move >= 0.0 ? whole : whole * (out - in) / move; // open for a part of the move
    }

    double slope (double move, double mean) const noexcept
    {
        if (std::abs (move) < 1.0e-3 * from)
            return 0.75 * stiffness * a;
        const double out = std::max (0.0, from + move);
        return move == 0.0 ? 0.0 : std::max (0.0, (stiffness * out * std::sqrt (out) - mean) / move);
    }

private:
    double from, stiffness, in, a;
};

/** solveContact() for one law. */
template <typename Law>
ContactStep solveMove (const Law& law, double compression, double freeMove, double mobility, double stiffness, double exponent,
                       double loss, double force, double precision) noexcept
{
    // The spring's force is between 0 and that of the largest compression in play, which brackets the root.
    const double scale = std::abs (compression) + std::abs (freeMove);
    const double deepest = std::max (compression, compression + freeMove);
    double low = std::min (freeMove, 0.0) - mobility * springForce (stiffness, exponent, deepest) - scale;
    double high = std::max (freeMove, 0.0) + scale;

    double move = std::min (std::max (freeMove - mobility * force, low), high);
    for (int i = 0; i < 200; ++i)
    {
        const double spring = law.mean (move);
        const double miss = move * (1.0 + mobility * loss) + mobility * spring - freeMove;
        if (miss > 0.0)
            high = move;
        else
            low = move;
        const double steepness = 1.0 + mobility * (loss + law.slope (move, spring));
        double next = move - miss / steepness;
        if (! (next > low && next < high))
            next = 0.5 * (low + high);
        // As close as rounding allows: with a stiff tip on a soft head the move is a tiny part of the free move.
        const bool isSettled = std::abs (next - move) <= precision * scale / steepness;
        move = next;
        if (isSettled)
            break;
    }
    return { move, law.mean (move) + loss * move };
}

/** Solves move = free move - mobility·force for a one-sided power-law contact whose force is the discrete gradient of its stored
   energy (Chatziioannou & van Walstijn 2015) plus loss·move.

    Left minus right side increases with `move`, so there is one root, and Newton's method inside a bracket always finds it.
   `mobility` and `loss` (N/m) are not negative.
   @param force      N, first guess of the force
   @param precision  of the move, relative to compression and free move */
inline ContactStep solveContact (double compression, double freeMove, double mobility, double stiffness, double exponent,
                                 double loss, double force = 0.0, double precision = 1.0e-15) noexcept
{
    if (loss == 0.0 && compression <= 0.0 && compression + freeMove <= 0.0)
        return { freeMove, 0.0 };
    if (exponent == 1.5)
        return solveMove (HertzMove (compression, stiffness), compression, freeMove, mobility, stiffness, exponent, loss, force,
                          precision);
    const PowerLawMove law (compression, std::abs (compression) + std::abs (freeMove), stiffness, exponent);
    return solveMove (law, compression, freeMove, mobility, stiffness, exponent, loss, force, precision);
}

} // namespace
} // namespace engine
