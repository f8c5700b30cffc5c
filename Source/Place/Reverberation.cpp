#include "Reverberation.h"

#include "Modal/Units.h"
#include "Modal/air/Absorption.h"

#include <algorithm>
#include <cmath>

namespace place
{
namespace
{
using modal::units::pi;

const double sixtyDecibels = 6.0 * std::log (10.0); ///< as a natural logarithm of energy
const double neper = std::log (10.0) / 10.0;        ///< of energy, in 1 dB

/** Absorption of hard ground; common practice, no source. */
constexpr double groundAbsorption = 0.1;
} // namespace

double sabineTime (double volume, double absorptionArea, double soundSpeed) noexcept
{
    return 4.0 * sixtyDecibels * volume / (soundSpeed * absorptionArea);
}

double eyringTime (double volume, double surface, double absorption, double airLoss, double soundSpeed) noexcept
{
    return sabineTime (volume, -surface * std::log1p (-absorption) + 4.0 * neper * airLoss * volume, soundSpeed);
}

double eyringAbsorption (double volume, double surface, double time, double airLoss, double soundSpeed) noexcept
{
    const double area = 4.0 * sixtyDecibels * volume / (soundSpeed * time) - 4.0 * neper * airLoss * volume;
    return area > 0.0 ? -std::expm1 (-area / surface) : 0.0;
}

double criticalDistance (double volume, double time, double soundSpeed) noexcept
{
    return std::sqrt (4.0 * sixtyDecibels * volume / (soundSpeed * time) / (16.0 * pi));
}

double reverberantEnergy (double volume, double time, double distance, double soundSpeed) noexcept
{
    // 16π/A, less what decays before the direct sound arrives.
    const double critical = criticalDistance (volume, time, soundSpeed);
    return std::exp (-sixtyDecibels * distance / (soundSpeed * time)) / (critical * critical);
}

Decay::Decay (const Place& place)
{
    const Box box (place);
    double absorption = groundAbsorption;
    for (std::size_t i = 0; i < time.size(); ++i)
    {
        airLoss[i] = modal::airAbsorption (place.weather, bandCentre (i));
        time[i] = 0.0;
        if (place.kind == Place::Kind::room)
        {
            if (i < place.times.size())
                absorption = eyringAbsorption (place.volume, box.surface, place.times[i], airLoss[i], box.soundSpeed);
            time[i] = i < place.times.size() ? place.times[i]
                                             : eyringTime (place.volume, box.surface, absorption, airLoss[i], box.soundSpeed);
        }
        sideLoss[i] = -10.0 * std::log10 (std::max (1.0 - absorption, 1.0e-9));
    }
}

double atFrequency (const Decay::Bands& values, double frequency) noexcept
{
    const double at = std::clamp (std::log2 (frequency / bandCentre (0)), 0.0, static_cast<double> (values.size() - 1));
    const auto below = std::min (static_cast<std::size_t> (at), values.size() - 2);
    return values[below] + (at - static_cast<double> (below)) * (values[below + 1] - values[below]);
}

} // namespace place
