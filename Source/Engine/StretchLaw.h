#pragma once

#include "ContactLaw.h"
#include "Modal/heads/LocalStretch.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** The discrete gradient (energy at the end - energy before)/move, without the difference of like numbers. */
inline double meanStretchForce (const modal::LocalStretch& s, double from, double move) noexcept
{
    const double to = from + move, sum = from + to, knee = s.knee * s.knee;
    const double z = move * sum / (knee + from * from);
    const double logarithm = std::abs (z) < 1.0e-5 ? 1.0 - 0.5 * z + z * z / 3.0 : std::log1p (z) / z;
    return sum * (0.25 * s.hard * (from * from + to * to) +
                  0.5 * (s.soft - s.hard) * knee * (1.0 - knee / (knee + from * from) * logarithm));
}

/** Solves move = wish - mobility·force for the film's stretch with its mean force over the move, as solveContact() does. The mean
    force is zero where the deflection changes its sign, which brackets the root with `wish`. */
inline ContactStep solveStretch (const modal::LocalStretch& s, double from, double wish, double mobility, double force,
                                 double precision) noexcept
{
    const double scale = std::abs (from) + std::abs (wish);
    double low = std::min (wish, -2.0 * from), high = std::max (wish, -2.0 * from);
    double move = std::min (std::max (wish - mobility * force, low), high);
    for (int i = 0; i < 200; ++i)
    {
        const double mean = meanStretchForce (s, from, move);
        const double miss = move + mobility * mean - wish;
        (miss > 0.0 ? high : low) = move;
        const double end = s.force (from + move);
        // Of the mean force; never below zero, as the force only grows.
        const double slope = std::abs (move) > 1.0e-6 * scale ? std::max (0.0, (end - mean) / move) : 0.0;
        const double steepness = 1.0 + mobility * slope;
        double next = move - miss / steepness;
        if (! (next >= low && next <= high))
            next = 0.5 * (low + high);
        const bool isSettled = std::abs (next - move) <= precision * scale / steepness;
        move = next;
        if (isSettled)
            break;
    }
    return { move, meanStretchForce (s, from, move) };
}

} // namespace
} // namespace engine
