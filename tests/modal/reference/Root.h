#pragma once

#include <boost/math/tools/roots.hpp>
#include <cstdint>
#include <vector>

namespace reference
{

/** The root of a continuous function between two points where its signs differ, to the last bits of a double. */
template <typename Function>
double rootBetween (const Function& f, double low, double high)
{
    std::uintmax_t iterations = 200;
    const auto bracket =
        boost::math::tools::toms748_solve (f, low, high, boost::math::tools::eps_tolerance<double> (52), iterations);
    return 0.5 * (bracket.first + bracket.second);
}

/** The first `count` roots above `low` of a function without poles, found by walking in steps of `step` and refining. */
template <typename Function>
std::vector<double> rootsAbove (const Function& f, double low, double step, int count)
{
    std::vector<double> roots;
    double left = low, valueLeft = f (low);
    while (roots.size() < static_cast<std::size_t> (count))
    {
        const double right = left + step, valueRight = f (right);
        if (valueLeft * valueRight < 0.0)
            roots.push_back (rootBetween (f, left, right));
        left = right;
        valueLeft = valueRight;
    }
    return roots;
}

} // namespace reference
