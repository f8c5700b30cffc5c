#include "MotionClock.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{

/** The first moments 400 times slower than the drum, later ones up to 25 times: wall time t shows drum time a·t + b·t². */
constexpr double slowest = 400.0, quickest = 25.0;

} // namespace

void MotionClock::start (std::shared_ptr<const Motion> newMotion, double nowSeconds) noexcept
{
    motion = std::move (newMotion);
    begun = nowSeconds;
    current = 0;
}

bool MotionClock::moveTo (double nowSeconds) noexcept
{
    if (motion == nullptr)
        return false;
    const double wall = std::max (0.0, nowSeconds - begun);
    const double time = wall / slowest + 0.25 * wall * wall / slowest;
    const double limited = std::min (time, wall / quickest);
    current = static_cast<int> (limited / motion->frameTime);
    if (current < static_cast<int> (motion->frames.size()))
        return true;
    motion = nullptr;
    current = 0;
    return false;
}

double MotionClock::drumTime() const noexcept
{
    return motion == nullptr ? 0.0 : motion->frameTime * current;
}

double MotionClock::slowing() const noexcept
{
    if (motion == nullptr)
        return 0.0;
    // From the same law: d(drum time)/d(wall time) at the drum's time.
    const double time = drumTime();
    const double wall = 2.0 * (std::sqrt (1.0 + time * slowest) - 1.0);
    return std::max (quickest, slowest / (1.0 + 0.5 * wall));
}

} // namespace editor
