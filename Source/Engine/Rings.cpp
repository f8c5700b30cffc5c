#include "Rings.h"

#include "Bank.h"

#include "Modal/DrumSpec.h"
#include "Modal/hardware/RingModes.h"

#include <Eigen/Eigenvalues>
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

/** How the rods hold the hoop sideways against the shell, N/m, all together: ten steel bolts of 5 mm as beams of 50 mm that are
   clamped at both ends, 12EI/l³ each. Common practice, no source. */
constexpr double sidewaysStiffness = 6.0e6;

/** Hoop and shell bending in their own planes, the hoop on the shell by its rods: for each order two modes in which both move. */
void addRings (std::vector<RingMode>& to, const modal::RingSection& hoop, const modal::RingSection& shell, double radius,
               double highest)
{
    for (int n = 2; n <= highestOrder; ++n)
    {
        const auto spring = [&] (const modal::RingSection& ring)
        {
            const double omega = modal::units::twoPi * modal::ringFrequency (n, ring, radius);
            return omega * omega * modal::ringModalMass (n, ring, radius);
        };
        // Half the rods' stiffness: the mean of cos² round the drum.
        const double hoopSpring = spring (hoop), shellSpring = spring (shell), rods = 0.5 * sidewaysStiffness;
        Eigen::Matrix2d stiffness, mass;
        stiffness << hoopSpring + rods, -rods, -rods, shellSpring + rods;
        mass << modal::ringModalMass (n, hoop, radius), 0.0, 0.0, modal::ringModalMass (n, shell, radius);
        const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::Matrix2d> solved (stiffness, mass);
        for (int k = 0; k < 2; ++k)
        {
            const double omega = std::sqrt (solved.eigenvalues()[k]);
            const Eigen::Vector2d shape = solved.eigenvectors().col (k);
            RingMode mode;
            mode.n = n;
            mode.frequency = omega / modal::units::twoPi;
            if (mode.frequency > highest)
                continue;
            mode.ofHoop = shape[0];
            mode.ofShell = shape[1];
            // Each spring loses the share of its factor; the shares add up to the modal stiffness ω².
            const double lost = shape[0] * shape[0] * hoopSpring * modal::ringMaterial (hoop.material).lossFactor +
                                shape[1] * shape[1] * shellSpring * modal::ringMaterial (shell.material).lossFactor;
            mode.decay = 0.5 * omega * (lost / (omega * omega) + mountLossFactor);
            for (const bool isSine : { false, true })
            {
                mode.isSine = isSine;
                to.push_back (mode);
            }
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
            mode.ofHoop = std::sqrt ((n == 0 ? 1.0 : 2.0) / mass);
            to.push_back (mode);
        }
    }
}

} // namespace

std::vector<RingMode> ringModes (const DrumSetup& setup)
{
    std::vector<RingMode> modes;
    const double highest = highestShareOfRate * setup.sampleRate;
    const auto hoop = modal::sectionOf (setup.hoop);
    addRings (modes, hoop, modal::shellSection (setup.shell.thickness, setup.modes.depth, setup.shell.material),
              setup.modes.radius, highest);
    addUprightHoop (modes, hoop, setup.modes.radius, highest);
    return modes;
}

} // namespace engine
