#include "DecayTime.h"

#include <algorithm>
#include <limits>

namespace engine
{

double decayTime (const std::vector<double>& levels, double step, double end)
{
    constexpr double begin = -5.0; // dB
    const auto loudest = *std::max_element (levels.begin(), levels.end());
    const auto lastAbove = [&] (double level)
    {
        const auto found = std::find_if (levels.rbegin(), levels.rend(), [&] (double l) { return l > loudest + level; });
        return static_cast<int> (levels.rend() - found);
    };
    const int final = static_cast<int> (levels.size()) - 1;
    const int first = std::min (lastAbove (begin), final), last = std::min (lastAbove (end), final);
    const auto fall = levels[static_cast<std::size_t> (first)] - levels[static_cast<std::size_t> (last)];
    return fall > 0.0 ? 60.0 / fall * (last - first) * step : std::numeric_limits<double>::infinity();
}

} // namespace engine
