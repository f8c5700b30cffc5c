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

/** Default gain of the sound in a place, dB. A drum in the living room of the presets
   is then about as loud as the mix of its microphones; in a club, nine metres away, it is 13 dB softer. */
inline constexpr double usualPlaceLevel = 18.0;

/** The same as a factor. */
double usualPlaceGain() noexcept;

/** Gains of a channel on the left and the right. */
struct SideGains
{
    double left, right;
};

SideGains sideGains (const MixChannel&) noexcept;

} // namespace score
