#pragma once

namespace modal
{

/** How a head resists being pushed in at a small place beyond what its tension at rest does: the film stretches round the place, where
    it is steep, and pulls harder there. A spring with the force

        hard·x³ + (soft - hard)·x³/(1 + x²/knee²),

    x being how deep the place is below the mean of a ring round it. Always grows with x. */
struct LocalStretch
{
    double soft = 0.0;       ///< N/m³, for a shallow dent
    double hard = 0.0;       ///< N/m³, for a deep one, at most `soft`
    double knee = 1.0;       ///< m, between both
    double ringRadius = 0.0; ///< m

    double force (double x) const noexcept; ///< N
    double energy (double x) const noexcept; ///< J, ∫ force dx
};

/** A round piece of film under tension that is pushed in its middle. */
struct DentedFilm
{
    double tension = 3000.0;          ///< N/m, at rest, above 0
    double stretchStiffness = 1.1e6;  ///< N/m, Young's modulus × thickness
    double patchRadius = 2.5e-3;      ///< m, over which the force is spread evenly
    double ringRadius = 40.0e-3;      ///< m, where the deflection is counted from; the film goes on outside

    /** Mean deflection of the patch under a force (N), m. Static; von Kármán's strains w,r²/2 with the film free to move in its plane,
        by finite elements along the radius. Bending is left out. */
    double deflection (double force) const;
};

/** The spring that fits a film's dents up to some 4 mm, within a few per cent of the whole force. */
LocalStretch localStretch (const DentedFilm&);

} // namespace modal
