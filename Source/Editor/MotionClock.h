#pragma once

#include "Motion.h"

namespace editor
{

/** Slow motion of a strike, slowest at the attack. */
class MotionClock
{
public:
    void start (std::shared_ptr<const Motion> newMotion, double nowSeconds) noexcept;
    void stop() noexcept { motion = nullptr; }

    bool isRunning() const noexcept { return motion != nullptr; }

    /** Advances to a wall-clock time; false after the end of the strike. */
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
