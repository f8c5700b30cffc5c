#pragma once

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Friction of a wire's tip on the head: coefficient before it slips and well under way, and m/s over which it falls from one to the other.
    Common practice, no source: steel on a polyester film. */
constexpr double restingFriction = 0.35, slidingFriction = 0.25, slipSpeedScale = 0.05;

/** Force that resists slipping by `free slip - mobility·force` over two samples, N. It never drives: force × slip ≥ 0.
    @param freeSlip  m, over two samples without it
    @param mobility  m/N
    @param press     N on the contact, not negative
    @param time      s, of two samples */
inline double slipForce (double freeSlip, double mobility, double press, double time) noexcept
{
    const double least = std::abs (freeSlip);
    if (least <= mobility * restingFriction * press)
        return mobility > 0.0 ? freeSlip / mobility : 0.0;
    const double speed = (least - mobility * slidingFriction * press) / time;
    const double friction = slidingFriction + (restingFriction - slidingFriction) * std::exp (-speed / slipSpeedScale);
    return std::copysign (friction * press, freeSlip);
}

} // namespace
} // namespace engine
