#pragma once

#include "Listening/Recording.h"

#include <array>
#include <optional>

namespace playlike
{

/** How the sound of one octave begins and fades. */
struct OctaveFall
{
    std::optional<double> t60; ///< s, from the fall from -3 to -18 dB, where a room adds little; none if noise comes first
    /** s after the blow: the centre of its energy in time over 0.3 s (centre time, ISO 3382-1); none if noise has much of it. */
    std::optional<double> centreTime;
};

/** Lower corners of the octaves, Hz. */
inline constexpr std::array<double, 6> octaves{ 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0 };

using OctaveFalls = std::array<OctaveFall, octaves.size()>;

/** @param blow   s, when it lands
    @param end    s, until when nothing else sounds
    @param quiet  s, where the noise is measured, see listening::quietestMoment(); none: there is no noise */
OctaveFalls octaveFallsOf (const listening::Recording&, double blow, double end, std::optional<double> quiet);

} // namespace playlike
