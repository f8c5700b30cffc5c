#pragma once

#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <cmath>
#include <vector>

/** Drums that several checks share, and small views of their modes. */
namespace drums
{

/** A 14 × 5 inch drum, 10 mil over 3 mil, no vent. */
inline modal::DrumSpec snare()
{
    modal::DrumSpec drum;
    drum.diameter = 14.0 * modal::units::inch;
    drum.depth = 5.0 * modal::units::inch;
    drum.batter = { .plyThickness = 10.0 * modal::units::mil };
    drum.resonant = { .plyThickness = 3.0 * modal::units::mil };
    drum.vent.diameter = 0.0;
    return drum;
}

/** Air that springs like ordinary air and has no mass: ρ → 0 with ρc² fixed. Every load but the cavity's stiffness vanishes with
 * ρ. */
inline modal::Air springOnly()
{
    const modal::Air ordinary;
    const double stiffness = ordinary.density * ordinary.soundSpeed * ordinary.soundSpeed;
    modal::Air air = ordinary;
    air.density = 1.0e-8;
    air.soundSpeed = std::sqrt (stiffness / air.density);
    return air;
}

/** One entry a degenerate pair: the modes of order m by frequency. */
inline std::vector<modal::Mode> ofOrder (const modal::DrumModes& drum, int m)
{
    std::vector<modal::Mode> modes;
    for (const auto& mode : drum.modes)
        if (mode.m == m && mode.parity == modal::Parity::cosine)
            modes.push_back (mode);
    return modes;
}

/** In-vacuo frequency of a mode whose zero is `zero`, Hz. */
inline double vacuumFrequency (double zero, double radius, double tension, double density)
{
    return zero / (modal::units::twoPi * radius) * std::sqrt (tension / density);
}

/** A tuning without a name at the usual concert pitch. */
template <typename Target>
modal::Tuning tunedTo (const Target& target)
{
    modal::Tuning tuning;
    tuning.target = target;
    return tuning;
}

} // namespace drums
