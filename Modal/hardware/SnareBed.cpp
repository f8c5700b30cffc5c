#include "SnareBed.h"

#include "Modal/Units.h"

#include <cmath>
#include <initializer_list>

namespace modal
{

SnareBed::SnareBed (double headRadius, double bedDepth, double span)
    : radius (headRadius), depth (bedDepth), halfAngle (0.5 * span / headRadius)
{
}

double SnareBed::height (double x, double y) const
{
    // The integrand is smooth where wires lie; near the edge, at 0.96 of the radius, its peak is as wide as three steps.
    constexpr int steps = 128;
    const double share = std::hypot (x, y) / radius, angle = std::atan2 (y, x);
    double sum = 0.0;
    for (int i = 0; i < steps; ++i)
    {
        const double along = (2.0 * (i + 0.5) / steps - 1.0);
        const double dip = 0.5 * (1.0 + std::cos (units::pi * along));
        for (const double middle : { 0.0, units::pi })
            sum +=
                dip * (1.0 - share * share) / (1.0 - 2.0 * share * std::cos (angle - middle - along * halfAngle) + share * share);
    }
    return -depth * sum * (2.0 * halfAngle / steps) / (2.0 * units::pi);
}

} // namespace modal
