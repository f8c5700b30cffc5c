#pragma once

#include <array>

namespace score
{

/** One microphone's part in a stereo mix. */
struct MixChannel
{
    double level = 0.0; ///< dB
    double pan = 0.0;   ///< -1 left to 1 right, at equal power
};

/** Default mix of the microphones above, below and at a distance, in that order. The distant one is raised to compensate for its
   distance; the two close ones are panned slightly apart to separate head and wires. No polarity is inverted. Common practice, no
   source. */
inline constexpr std::array<MixChannel, 3> usualMix{ { { 0.0, -0.2 }, { -6.0, 0.2 }, { 6.0, 0.0 } } };

/** Gains of a channel on the left and the right. */
struct SideGains
{
    double left, right;
};

SideGains sideGains (const MixChannel&) noexcept;

} // namespace score
