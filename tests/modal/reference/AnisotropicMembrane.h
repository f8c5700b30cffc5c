#pragma once

#include <vector>

namespace reference
{

/** Lowest eigenfrequencies, as ω a √(σ) in √(N/m), of a circular membrane drawn with T_x along x and T_y along y everywhere.

    Ritz's method on (1 − x² − y²) x^i y^j, i + j ≤ degree, in long double, its integrals in closed form: no Bessel function, no
   polar coordinates. Degree 16 gives the first ten to 1e-8 (checked against the zeros of J_m for T_x = T_y). */
std::vector<double> anisotropicMembrane (double tensionX, double tensionY, int degree, int count);

} // namespace reference
