#include "StereoMix.h"

#include "Modal/Units.h"

#include <cmath>

namespace score
{

double usualPlaceGain() noexcept
{
    return std::pow (10.0, usualPlaceLevel / 20.0);
}

SideGains sideGains (const MixChannel& channel) noexcept
{
    const double gain = std::pow (10.0, channel.level / 20.0);
    const double angle = 0.25 * modal::units::pi * (1.0 + channel.pan);
    return { gain * std::cos (angle), gain * std::sin (angle) };
}

} // namespace score
