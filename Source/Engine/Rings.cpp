#include "Rings.h"

#include "Bank.h"

#include "Modal/DrumSpec.h"
#include "Modal/hardware/RingModes.h"

#include <cmath>

namespace engine
{
namespace
{

/** Loss factor that lugs, rods and the head add to the ring's material loss. Common practice, no source: a mounted hoop rings for
   some tens of milliseconds, a loose one for a second. */
constexpr double mountLossFactor = 0.02;
constexpr int highestOrder = 8;

void addRing (std::vector<RingMode>& to, const modal::RingSection& section, double radius, double height, bool belongsToShell,
              double highest)
{
    const auto& material = modal::ringMaterial (section.material);
    for (int n = 2; n <= highestOrder; ++n)
    {
        const double frequency = modal::ringFrequency (n, section, radius);
        if (frequency > highest)
            return;
        for (const bool isSine : { false, true })
        {
            RingMode mode;
            mode.n = n;
            mode.isSine = isSine;
            mode.frequency = frequency;
            mode.decay = modal::units::pi * frequency * (material.lossFactor + mountLossFactor);
            mode.amplitude = 1.0 / std::sqrt (modal::ringModalMass (n, section, radius));
            mode.height = height;
            mode.belongsToShell = belongsToShell;
            to.push_back (mode);
        }
    }
}

} // namespace

std::vector<RingMode> ringModes (const DrumSetup& setup)
{
    std::vector<RingMode> modes;
    const double highest = highestShareOfRate * setup.sampleRate;
    addRing (modes, modal::sectionOf (setup.hoop), setup.modes.radius, modal::hoopHeight, false, highest);
    addRing (modes, modal::shellSection (setup.shell.thickness, setup.modes.depth, setup.shell.material), setup.modes.radius,
             setup.modes.depth, true, highest);
    return modes;
}

} // namespace engine
