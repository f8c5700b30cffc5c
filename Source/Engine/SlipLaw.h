#pragma once

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Friction of a wire's tip on the head: coefficient before it slips and well under way, and m/s over which it falls from one to the other.
    Common practice, no source: steel on a polyester film. */
constexpr double restingFriction = 0.3, slidingFriction = 0.25, slipSpeedScale = 0.2;

/** Coefficient at a speed in m/s. */
inline double frictionAt (double speed) noexcept
{
    return slidingFriction + (restingFriction - slidingFriction) * std::exp (-std::abs (speed) / slipSpeedScale);
}

/** What resists slipping by `freeSlip - mobility·force` m, N: as much as holds the tip, up to `most`. It never drives: force × slip ≥ 0.
    @param mobility  m/N, above 0 */
inline double slipForce (double freeSlip, double mobility, double most) noexcept
{
    return std::clamp (freeSlip / mobility, -most, most);
}

} // namespace
} // namespace engine
