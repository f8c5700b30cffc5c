#include "GaussRule.h"

#include <boost/math/quadrature/gauss.hpp>

namespace reference
{

Rule gaussRule (int pieces, double low, double high)
{
    using Gauss = boost::math::quadrature::gauss<double, 10>;
    const double half = 0.5 * (high - low) / pieces;

    Rule rule;
    for (int piece = 0; piece < pieces; ++piece)
    {
        const double centre = low + (2 * piece + 1) * half;
        for (std::size_t i = 0; i < Gauss::abscissa().size(); ++i)
            for (const double side : { -1.0, 1.0 })
            {
                rule.points.push_back (centre + side * half * Gauss::abscissa()[i]);
                rule.weights.push_back (half * Gauss::weights()[i]);
            }
    }
    return rule;
}

} // namespace reference
