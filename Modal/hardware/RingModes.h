#pragma once

#include "Modal/DrumSpec.h"
#include "Hoop.h"
#include "Modal/Units.h"

namespace modal
{

inline constexpr double hoopHeight = 38.0e-3; ///< m, common practice, no source

/** Frequency in Hz of a free ring's bending mode in its own plane with n full waves around, n ≥ 2:

        f = n(n² - 1)/√(n² + 1) · √(EI/ρA) / (2πR²)

    A. E. H. Love, A Treatise on the Mathematical Theory of Elasticity, § 293 (the ring whose middle line does not stretch).
    `radius` of the middle line in m. Throws InputError for an unknown material. */
double ringFrequency (int n, const RingSection& section, double radius);

/** The same for bending out of the plane, which twists the ring; 0 below n = 2:

        f = n(n² - 1)/√(n² + EI/GJ) · √(EI/ρA) / (2πR²)

    Love, the same section, from memory. */
double uprightRingFrequency (int n, const RingSection& section, double radius);

/** Modal mass in kg for a radial motion of cos nθ: πRρA(1 + 1/n²), the second part from the motion along the ring that keeps it
 * unstretched. */
double ringModalMass (int n, const RingSection& section, double radius);

/** A hoop's or a shell's material; knows zinc beside those of findMaterial(). */
const Material& ringMaterial (const std::string& name);

} // namespace modal
