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

/** A plain mix of the microphones above, below and at a distance, in that order. The distant one gets back some of what distance
    took; the two close ones stand slightly apart so that head and wires can be told from each other. No polarity is inverted.
    Common practice, no source. */
inline constexpr std::array<MixChannel, 3> usualMix{ { { 0.0, -0.2 }, { -6.0, 0.2 }, { 6.0, 0.0 } } };

/** Factors by which a channel goes to the left and the right. */
struct SideGains
{
    double left, right;
};

SideGains sideGains (const MixChannel&) noexcept;

} // namespace score
