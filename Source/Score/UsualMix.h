#pragma once

#include "StereoMix.h"

#include <algorithm>
#include <array>

namespace score
{

/** Mixes what the microphones above, below and at a distance hear as `usualMix` says. */
class UsualMix
{
public:
    static constexpr std::size_t microphones = usualMix.size();

    UsualMix() noexcept { std::transform (usualMix.begin(), usualMix.end(), gains.begin(), sideGains); }

    /** @param heard  `frames` samples of each microphone */
    void mix (const float* const* heard, float* left, float* right, int frames) const noexcept
    {
        for (int i = 0; i < frames; ++i)
        {
            double l = 0.0, r = 0.0;

            for (std::size_t m = 0; m < microphones; ++m)
            {
                l += gains[m].left * static_cast<double> (heard[m][i]);
                r += gains[m].right * static_cast<double> (heard[m][i]);
            }

            left[i] = static_cast<float> (l);
            right[i] = static_cast<float> (r);
        }
    }

private:
    std::array<SideGains, microphones> gains{};
};

} // namespace score
