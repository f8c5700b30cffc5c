#pragma once

#include "Score/StereoMix.h"

#include <array>

namespace web
{

inline constexpr int microphones = 3; ///< above, below, distant

/** The usual stereo mix of these, as the program and the plugin have it. */
class Mixer
{
public:
    Mixer() noexcept
    {
        for (std::size_t m = 0; m < gains.size(); ++m)
            gains[m] = score::sideGains (score::usualMix[m]);
    }

    /** @param heard  `frames` samples of each microphone */
    void mix (const float* const* heard, float* left, float* right, int frames) const noexcept
    {
        for (int i = 0; i < frames; ++i)
        {
            double l = 0.0, r = 0.0;

            for (std::size_t m = 0; m < gains.size(); ++m)
            {
                l += gains[m].left * static_cast<double> (heard[m][i]);
                r += gains[m].right * static_cast<double> (heard[m][i]);
            }

            left[i] = static_cast<float> (l);
            right[i] = static_cast<float> (r);
        }
    }

private:
    std::array<score::SideGains, microphones> gains{};
};

} // namespace web
