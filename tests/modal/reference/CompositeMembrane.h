#pragma once

#include <vector>

namespace reference
{

/** A membrane in a vacuum whose density steps at one radius: a disc of one density inside an annulus of another.

    J_m(k₁r) inside, αJ_m(k₂r) + βY_m(k₂r) outside, displacement and slope continuous at the step, fixed at the rim
    (Ramakrishna & Sondhi 1954 for the idea; the determinant is written out here).
*/
struct CompositeMembrane
{
    double radius;       ///< m
    double discRadius;   ///< m
    double discDensity;  ///< kg/m²
    double outerDensity; ///< kg/m²
    double tension;      ///< N/m

    /** The first `count` natural frequencies with m nodal diameters, Hz. */
    std::vector<double> frequencies (int m, int count) const;
};

} // namespace reference
