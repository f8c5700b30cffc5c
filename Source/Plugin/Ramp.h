#pragma once

#include <cmath>

namespace plugin
{

/** A gain that follows its target in a few milliseconds, sample by sample, so that the result does not depend on the block size.
 */
class Ramp
{
public:
    /** @param seconds   time constant */
    void prepare (double sampleRate, double seconds, float value) noexcept
    {
        share = static_cast<float> (1.0 - std::exp (-1.0 / (sampleRate * seconds)));
        now = target = value;
    }

    void setTarget (float value) noexcept { target = value; }

    float next() noexcept
    {
        now += share * (target - now);
        if (std::abs (target - now) < 1.0e-6f)
            now = target;
        return now;
    }

    float value() const noexcept { return now; }
    float goal() const noexcept { return target; }

private:
    float now = 1.0f, target = 1.0f, share = 1.0f;
};

} // namespace plugin
