#include "Losses.h"

#include <algorithm>
#include <cmath>

namespace fitting
{

Estimate lossRatioOf (const std::vector<HeardDecay>& heard, double modelError)
{
    constexpr double outlier = 2.5; // standard deviations
    constexpr int passes = 6;
    Estimate ratio{ 1.0, 0.0 };

    for (int pass = 0; pass < passes; ++pass)
    {
        double weightSum = 0.0, sum = 0.0;

        for (const auto& one : heard)
        {
            const double error = std::hypot (one.error, modelError * one.predicted.total());
            const double left = std::abs (one.rate - one.rateWith (ratio.value)) / error;
            const double weight = std::pow (one.scaled() / error, 2) * outlier / std::max (left, outlier);
            weightSum += weight;
            sum += weight * (one.rate - one.rateWith (0.0)) / one.scaled();
        }

        if (weightSum > 0.0)
            ratio = { sum / weightSum, 1.0 / std::sqrt (weightSum) };
    }

    return ratio;
}

} // namespace fitting
