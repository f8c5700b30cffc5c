#include "Roughness.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace engine
{
namespace
{

/** Size of a coating's grains over 2π, m, and density of what is sprayed on, kg/m³. Common practice, no source. */
constexpr double grain = 80.0e-6, coatingDensity = 1300.0;

constexpr double bareFilm = 0.3e-6; // m; common practice, no source

RoughnessProfile makeProfile()
{
    constexpr auto points = static_cast<std::size_t> (RoughnessProfile::points);
    std::mt19937 random (1);
    std::array<double, points> height{};
    for (auto& value : height)
        value = static_cast<double> (random()) / 4294967296.0 - 0.5;

    // Forwards and backwards through a first-order low-pass, twice each, so that the end runs into the beginning.
    const double keep = std::exp (-RoughnessProfile::stepLength / grain);
    const auto smooth = [&] (auto from, auto to)
    {
        double last = 0.0;
        for (int turn = 0; turn < 2; ++turn)
            for (auto at = from; at != to; ++at)
            {
                last = keep * last + (1.0 - keep) * *at;
                if (turn == 1)
                    *at = last;
            }
    };
    smooth (height.begin(), height.end());
    smooth (height.rbegin(), height.rend());

    double mean = 0.0, square = 0.0;
    for (const double value : height)
        mean += value / static_cast<double> (points);
    for (double& value : height)
    {
        value -= mean;
        square += value * value / static_cast<double> (points);
    }
    RoughnessProfile profile;
    for (std::size_t i = 0; i <= points; ++i)
        profile.height[i] = static_cast<float> (height[i % points] / std::sqrt (square));
    return profile;
}

} // namespace

const RoughnessProfile& roughnessProfile()
{
    static const auto profile = makeProfile();
    return profile;
}

double roughnessOf (const modal::HeadConstruction& head) noexcept
{
    return std::max (bareFilm, 0.5 * head.coatingDensity / coatingDensity);
}

} // namespace engine
