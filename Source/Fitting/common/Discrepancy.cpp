#include "Discrepancy.h"

#include <cmath>

namespace fitting
{

Eigen::MatrixXd errorCorrelation (const std::vector<modal::Mode>& modes)
{
    constexpr double shared = 0.5, reach = 0.5; // of the variance; octaves
    const auto count = static_cast<Eigen::Index> (modes.size());
    Eigen::MatrixXd correlation = Eigen::MatrixXd::Identity (count, count);

    for (Eigen::Index i = 0; i < count; ++i)
        for (Eigen::Index j = 0; j < i; ++j)
        {
            const auto& a = modes[static_cast<std::size_t> (i)];
            const auto& b = modes[static_cast<std::size_t> (j)];
            const double octaves = std::log2 (a.frequency / b.frequency);
            const double sameHead =
                (a.shares.batter * b.shares.batter + a.shares.resonant * b.shares.resonant) /
                (std::hypot (a.shares.batter, a.shares.resonant) * std::hypot (b.shares.batter, b.shares.resonant));
            // Two lines of one mode are partners and have its error in common.
            const double own = a.m == b.m && octaves == 0.0 ? 1.0 - shared : 0.0;
            correlation (i, j) = correlation (j, i) =
                own + shared * sameHead * std::exp (-0.5 * octaves * octaves / (reach * reach));
        }

    return correlation;
}

} // namespace fitting
