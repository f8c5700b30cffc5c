#include "FitLosses.h"

#include <cmath>

namespace modal
{

Estimate lossRatioOf (const std::vector<HeardDecay>& heard)
{
    double weightSum = 0.0, sum = 0.0;

    for (const auto& one : heard)
    {
        const double scaled = one.predicted.film + one.predicted.ply + one.predicted.edge;
        const double rest = one.predicted.total() - scaled;
        const double error = std::hypot (one.error, 0.1 * one.predicted.total()); // radiation is known to a tenth or so
        const double weight = scaled * scaled / (error * error);
        weightSum += weight;
        sum += weight * (one.rate - rest) / scaled;
    }

    return weightSum > 0.0 ? Estimate{ sum / weightSum, 1.0 / std::sqrt (weightSum) } : Estimate{ 1.0, 0.0 };
}

} // namespace modal
