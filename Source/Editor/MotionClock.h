#pragma once

#include "Motion.h"

namespace editor
{

/** Which moment of a strike is shown: the drum's time runs slowed, slowest at the attack. */
class MotionClock
{
public:
    void start (std::shared_ptr<const Motion> newMotion, double nowSeconds) noexcept;
    void stop() noexcept { motion = nullptr; }

    bool isRunning() const noexcept { return motion != nullptr; }

    /** Moves to a moment of the wall clock; false once the strike is over. */
    bool moveTo (double nowSeconds) noexcept;

    const Motion* strike() const noexcept { return motion.get(); }
    int frame() const noexcept { return current; }
    double drumTime() const noexcept; ///< s since the stroke
    double slowing() const noexcept;  ///< how many times slower than the drum

private:
    std::shared_ptr<const Motion> motion;
    double begun = 0.0;
    int current = 0;
};

} // namespace editor
