#include "RadiationOfRings.h"

#include "Modal/Units.h"
#include "Modal/mathematics/Bessel.h"

#include <cmath>

namespace engine
{

double ringPressure (const modal::DrumModes& modes, const RingMode& ring, const Microphone& microphone)
{
    if (modes.air.isVacuum())
        return 0.0;
    const double z = microphone.z + (ring.belongsToShell ? 0.5 * modes.depth : 0.0);
    const double across = std::hypot (microphone.x, microphone.y);
    const double distance = std::max (std::hypot (across, z), modes.radius);
    const double waveNumber = modal::units::twoPi * ring.frequency / modes.air.soundSpeed;
    const double angle = std::atan2 (microphone.y, microphone.x);
    const double around = ring.isSine ? std::sin (ring.n * angle) : std::cos (ring.n * angle);
    return microphone.signedGain() * 0.5 * modes.air.density * ring.height * modes.radius * ring.amplitude * around / distance *
           modal::besselJ (ring.n, waveNumber * modes.radius * across / std::hypot (across, z));
}

} // namespace engine
