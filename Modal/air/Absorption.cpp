#include "Absorption.h"

#include <cmath>

namespace modal
{

double airAbsorption (const Weather& weather, double frequency) noexcept
{
    // Equations (3) to (5) and annex B of ISO 9613-1:1993, from memory; its table 1 is checked in AirTest.cpp.
    constexpr double referencePressure = 101325.0, referenceTemperature = 293.15, triplePoint = 273.16;
    const double pressure = weather.pressure / referencePressure, warmth = weather.temperature / referenceTemperature;
    const double saturation = std::pow (10.0, 4.6151 - 6.8346 * std::pow (triplePoint / weather.temperature, 1.261));
    const double vapour = 100.0 * weather.relativeHumidity * saturation / pressure; // molar share, %

    const double oxygen = pressure * (24.0 + 4.04e4 * vapour * (0.02 + vapour) / (0.391 + vapour));
    const double nitrogen =
        pressure / std::sqrt (warmth) * (9.0 + 280.0 * vapour * std::exp (-4.170 * (1.0 / std::cbrt (warmth) - 1.0)));
    const double squared = frequency * frequency;
    const double relaxation = 0.01275 * std::exp (-2239.1 / weather.temperature) / (oxygen + squared / oxygen) +
                              0.1068 * std::exp (-3352.0 / weather.temperature) / (nitrogen + squared / nitrogen);
    return 8.686 * squared * (1.84e-11 / pressure * std::sqrt (warmth) + std::pow (warmth, -2.5) * relaxation);
}

} // namespace modal
