#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace fitting
{

inline constexpr double rootTwoPi = 2.5066283; ///< √(2π), of the normal density

/** The upper one of the middle two for an even number of values, of which there must be at least one. */
inline double median (std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t> (values.size() / 2);
    std::nth_element (values.begin(), middle, values.end());
    return *middle;
}

} // namespace fitting
