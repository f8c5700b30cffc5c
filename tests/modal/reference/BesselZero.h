#pragma once

#include <vector>

/** Zeros of Bessel functions from Boost.Math alone. */
namespace reference
{

/** The first `count` positive zeros of J_m. */
std::vector<double> zerosOfJ (int m, int count);

/** The first `count` positive zeros of J_m', each bracketed by the zeros of J_m on either side of it. */
std::vector<double> zerosOfJPrime (int m, int count);

} // namespace reference
