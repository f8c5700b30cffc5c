#pragma once

#include "AlwaysInline.h"

#include <algorithm>

namespace engine
{

/** How the hand leads the handle of a brush, by samples since the first wire touched: it comes down with a speed that it loses within
    a time, stays, and goes again. Meanwhile it may move along the head. All of it is smooth, so that the wires are not jerked. */
struct HandleMotion
{
    double interval = 0.0;   ///< s a sample
    double down = 0.0;       ///< m/s with which it comes
    double away = 0.0;       ///< m/s with which it goes
    double along = 0.0;      ///< m/s along the head
    double turnRate = 1.0;   ///< 1/s, one over the time in which it changes its speed
    double leaveTime = 0.0;  ///< s after which it begins to go

    /** m above where it was when the first wire touched. */
    SNAREWRIGHT_INLINE double height (int age) const noexcept
    {
        const double time = age * interval;
        return away * gained (time - leaveTime) - down * (time - gained (time));
    }

    /** m/s², upwards. */
    SNAREWRIGHT_INLINE double acceleration (int age) const noexcept
    {
        const double time = age * interval;
        return down * gaining (time) + away * gaining (time - leaveTime);
    }

    /** m along the head in the next sample. */
    SNAREWRIGHT_INLINE double stepAlong (int age) const noexcept
    {
        const double time = age * interval;
        return along * interval * reached (time) * (1.0 - reached (time - leaveTime));
    }

    /** Whether it has gone this far, m. */
    bool isAway (int age, double reach) const noexcept
    {
        return (age * interval - leaveTime) * turnRate > 1.0 && height (age) > reach;
    }

private:
    SNAREWRIGHT_INLINE double share (double time) const noexcept { return std::clamp (time * turnRate, 0.0, 1.0); }

    /** Share of a change of speed that is done, its rate in 1/s, and its time integral in s. */
    SNAREWRIGHT_INLINE double reached (double time) const noexcept
    {
        const double x = share (time);
        return x * x * (3.0 - 2.0 * x);
    }
    SNAREWRIGHT_INLINE double gaining (double time) const noexcept
    {
        const double x = share (time);
        return 6.0 * x * (1.0 - x) * turnRate;
    }
    SNAREWRIGHT_INLINE double gained (double time) const noexcept
    {
        // From the end of the turn on it is time less half the turn.
        const double x = share (time);
        return std::max (0.0, time) - (x - x * x * x * (1.0 - 0.5 * x)) / turnRate;
    }
};

} // namespace engine
