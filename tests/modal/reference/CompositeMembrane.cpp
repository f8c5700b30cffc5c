#include "CompositeMembrane.h"

#include "Root.h"

#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>
#include <cmath>

namespace reference
{

std::vector<double> CompositeMembrane::frequencies (int m, int count) const
{
    using namespace boost::math;

    const auto determinant = [&] (double omega)
    {
        const double k1 = omega * std::sqrt (discDensity / tension);
        const double k2 = omega * std::sqrt (outerDensity / tension);
        const double inner = cyl_bessel_j (m, k1 * discRadius), innerSlope = k1 * cyl_bessel_j_prime (m, k1 * discRadius);

        // The outer solution that vanishes at the rim is u(r) = J(k₂r) Y(k₂a) − Y(k₂r) J(k₂a).
        const double jRim = cyl_bessel_j (m, k2 * radius), yRim = cyl_neumann (m, k2 * radius);
        const double x = k2 * discRadius;
        const double outer = cyl_bessel_j (m, x) * yRim - cyl_neumann (m, x) * jRim;
        const double outerSlope = k2 * (cyl_bessel_j_prime (m, x) * yRim - cyl_neumann_prime (m, x) * jRim);
        return inner * outerSlope - innerSlope * outer;
    };

    // A hundredth of the spacing of the roots of a plain membrane as heavy as the heavier part.
    const double heavier = std::max (discDensity, outerDensity);
    const double step = 0.01 * constants::pi<double>() / radius * std::sqrt (tension / heavier);

    auto roots = rootsAbove (determinant, step, step, count);
    for (auto& root : roots)
        root /= constants::two_pi<double>();
    return roots;
}

} // namespace reference
