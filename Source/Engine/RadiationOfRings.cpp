#include "RadiationOfRings.h"

#include "Modal/Units.h"
#include "Modal/hardware/RingModes.h"
#include "Modal/mathematics/Bessel.h"

#include <cmath>

namespace engine
{

namespace
{

/** Of a band round the drum whose middle is `z` m above or below the microphone's height, for a motion of 1. */
double bandPressure (const modal::DrumModes& modes, const RingMode& ring, const Microphone& microphone, double height, double z)
{
    const double across = std::hypot (microphone.x, microphone.y);
    const double distance = std::max (std::hypot (across, z), modes.radius);
    const double waveNumber = modal::units::twoPi * ring.frequency / modes.air.soundSpeed;
    const double angle = std::atan2 (microphone.y, microphone.x);
    const double around = ring.isSine ? std::sin (ring.n * angle) : std::cos (ring.n * angle);
    return microphone.signedGain() * 0.5 * modes.air.density * height * modes.radius * around / distance *
           modal::besselJ (ring.n, waveNumber * modes.radius * across / std::hypot (across, z));
}

} // namespace

double ringPressure (const modal::DrumModes& modes, const RingMode& ring, const Microphone& microphone)
{
    if (modes.air.isVacuum())
        return 0.0;
    return ring.ofHoop * bandPressure (modes, ring, microphone, modal::hoopHeight, microphone.z) +
           ring.ofShell * bandPressure (modes, ring, microphone, modes.depth, microphone.z + 0.5 * modes.depth);
}

} // namespace engine
