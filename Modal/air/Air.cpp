#include "Air.h"

#include "Modal/DrumNumbers.h"
#include "Modal/Units.h"

#include <cmath>

namespace modal
{

namespace
{

/** Mole fraction of water vapour in moist air, CIPM-2007 (Picard et al., Metrologia 45 (2008) 149). */
double vapourFraction (const Weather& weather)
{
    const double T = weather.temperature, t = T - units::zeroCelsius, p = weather.pressure;
    const double saturation = std::exp (1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
    const double enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
    return weather.relativeHumidity * enhancement * saturation / p;
}

/** Compressibility factor, same source. */
double compressibility (const Weather& weather, double x)
{
    const double T = weather.temperature, t = T - units::zeroCelsius, p = weather.pressure;
    const double first =
        1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * x + (1.9898e-4 - 2.376e-6 * t) * x * x;
    return 1.0 - p / T * first + p * p / (T * T) * (1.83e-11 - 0.765e-8 * x * x);
}

} // namespace

Air Air::from (const Weather& weather)
{
    check (weather);
    const double x = vapourFraction (weather);
    const double T = weather.temperature;

    Air air;
    // CIPM-2007 for 400 µmol/mol of carbon dioxide.
    air.density = 3.483740e-3 * weather.pressure / (compressibility (weather, x) * T) * (1.0 - 0.3780 * x);
    air.heatRatio = (7.0 + x) / (5.0 + x); // dry air as a diatomic ideal gas, vapour with one degree of freedom more
    air.soundSpeed = std::sqrt (air.heatRatio * weather.pressure / air.density);
    air.viscosity = 1.458e-6 * std::pow (T, 1.5) / (T + 110.4); // Sutherland's law, US Standard Atmosphere 1976
    return air;
}

Air Air::vacuum() noexcept
{
    Air air;
    air.density = 0.0;
    return air;
}

void check (const Weather& weather)
{
    checkNumbers (weather, "air");
}

} // namespace modal
