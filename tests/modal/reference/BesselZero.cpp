#include "BesselZero.h"

#include "Root.h"

#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>

namespace reference
{

std::vector<double> zerosOfJ (int m, int count)
{
    std::vector<double> zeros;
    for (int n = 1; n <= count; ++n)
        zeros.push_back (boost::math::cyl_bessel_j_zero (static_cast<double> (m), n));
    return zeros;
}

std::vector<double> zerosOfJPrime (int m, int count)
{
    const auto zeros = zerosOfJ (m, count + 1);
    const auto slope = [m] (double x) { return boost::math::cyl_bessel_j_prime (m, x); };

    std::vector<double> result;
    // Between two neighbouring zeros of J_m lies exactly one of J_m'; for m > 0 there is one more between m and j_m1.
    if (m > 0)
        result.push_back (rootBetween (slope, static_cast<double> (m), zeros.front()));
    for (std::size_t i = 0; result.size() < static_cast<std::size_t> (count); ++i)
        result.push_back (rootBetween (slope, zeros[i], zeros[i + 1]));
    return result;
}

} // namespace reference
