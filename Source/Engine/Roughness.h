#pragma once

#include "AlwaysInline.h"

#include "Modal/heads/Head.h"

#include <array>

namespace engine
{

/** Height of a rough surface along a line, of 1 on the mean (root mean square), at even steps; it repeats after 16 cm. Waves longer than its grains
    are all alike in height per wave number; shorter ones fall with the fourth power. */
struct RoughnessProfile
{
    static constexpr int points = 8192;
    static constexpr double stepLength = 20.0e-6; ///< m

    std::array<float, points + 1> height; ///< the last as the first

    /** At a place in m, not negative. */
    SNAREWRIGHT_INLINE double at (double place) const noexcept
    {
        const double steps = place / stepLength;
        const auto whole = static_cast<long long> (steps);
        const auto i = static_cast<std::size_t> (whole & (points - 1));
        const double low = static_cast<double> (height[i]);
        return low + (steps - static_cast<double> (whole)) * (static_cast<double> (height[i + 1]) - low);
    }
};

/** Made when it is first asked for, which a drum does as it is built. */
const RoughnessProfile& roughnessProfile();

/** How rough a head is, m, root mean square: half the thickness of its coating, or what bare film has. Common practice, no source. */
double roughnessOf (const modal::HeadConstruction&) noexcept;

} // namespace engine
