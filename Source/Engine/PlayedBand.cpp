#include "PlayedBand.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace engine
{

namespace
{
constexpr double fewestModes = 100.0, mostModes = 1200.0;
constexpr double lowestBand = 1500.0, highestBand = 5000.0; // Hz
} // namespace

double playedBand (const modal::DrumSpec& drum, const modal::Tensions& tensions, double wantedModes)
{
    const auto modesPerSquaredHertz = [&] (const modal::HeadConstruction& head, double tension)
    { return std::pow (modal::units::pi * drum.diameter, 2) / 4.0 * head.baseDensity() / tension; };

    auto total = modesPerSquaredHertz (drum.batter, tensions.batter);

    if (drum.hasResonantHead())
        total += modesPerSquaredHertz (drum.resonant, tensions.resonant);

    // Not a number counts as the fewest.
    const auto modes = wantedModes >= fewestModes ? std::min (wantedModes, mostModes) : fewestModes;
    const auto wanted = std::clamp (std::sqrt (modes / total), lowestBand, highestBand);
    return std::min (wanted, std::sqrt (mostModes / total));
}

} // namespace engine
