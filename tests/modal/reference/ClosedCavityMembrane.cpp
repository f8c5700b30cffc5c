#include "ClosedCavityMembrane.h"

#include "Root.h"

#include <boost/math/special_functions/bessel.hpp>

namespace reference
{

double closedCavityResidual (double b, double x)
{
    return boost::math::cyl_bessel_j (0, x) + b * boost::math::cyl_bessel_j (2, x) / (x * x);
}

std::vector<double> closedCavityRoots (double b, int count)
{
    return rootsAbove ([b] (double x) { return closedCavityResidual (b, x); }, 0.5, 0.05, count);
}

} // namespace reference
