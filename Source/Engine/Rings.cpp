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

/** How a hoop as a whole swings up and down on its rods and the head's collar, Hz, and the loss factor that these give it. Common
    practice, no source: a hoop of 1.2 kg that ten rods hold as steel bolts of 60 mm with their lugs a tenth as stiff. */
constexpr double rodsFrequency = 900.0, uprightLossFactor = 0.05;

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

/** The hoop up and down on its rods, bending out of its plane. */
void addUprightHoop (std::vector<RingMode>& to, const modal::RingSection& section, double radius, double highest)
{
    const double mass = modal::ringMaterial (section.material).density * section.area * modal::units::twoPi * radius;
    for (int n = 0; n <= highestOrder; ++n)
    {
        const double frequency = std::hypot (rodsFrequency, modal::uprightRingFrequency (n, section, radius));
        if (frequency > highest)
            return;
        for (const bool isSine : { false, true })
        {
            if (n == 0 && isSine)
                continue;
            RingMode mode;
            mode.n = n;
            mode.isSine = isSine;
            mode.isUpright = true;
            mode.frequency = frequency;
            mode.decay = modal::units::pi * frequency * uprightLossFactor;
            mode.amplitude = std::sqrt ((n == 0 ? 1.0 : 2.0) / mass);
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
    addUprightHoop (modes, modal::sectionOf (setup.hoop), setup.modes.radius, highest);
    addRing (modes, modal::shellSection (setup.shell.thickness, setup.modes.depth, setup.shell.material), setup.modes.radius,
             setup.modes.depth, true, highest);
    return modes;
}

} // namespace engine
