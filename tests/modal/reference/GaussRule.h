#pragma once

#include <vector>

namespace reference
{

/** Abscissas and weights of a numerical integral. */
struct Rule
{
    std::vector<double> points;
    std::vector<double> weights;
};

/** A 10-point Gauss rule (Boost.Math's) on each of `pieces` equal pieces of [low, high]. */
Rule gaussRule (int pieces, double low, double high);

} // namespace reference
