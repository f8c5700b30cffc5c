#pragma once

#include <vector>

/** Bessel functions of the first kind of integer order and their zeros, free of any library's special functions.

    Orders 0 to 200, arguments 0 to 1000. Values are accurate to about 1e-14 of the function's envelope, zeros to 1e-13 relative.
*/
namespace modal
{

/** J_m(x), x ≥ 0. */
double besselJ (int m, double x);

/** J_m'(x), x ≥ 0. */
double besselJPrime (int m, double x);

/** J_0(x) … J_highest(x) in one downward recurrence. */
std::vector<double> besselJUpTo (int highestOrder, double x);

/** The `count` smallest positive zeros of J_m, ascending. */
std::vector<double> besselZeros (int m, int count);

/** The `count` smallest positive zeros of J_m', ascending; x = 0 does not count. */
std::vector<double> besselPrimeZeros (int m, int count);

} // namespace modal
