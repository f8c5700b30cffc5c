#pragma once

namespace modal
{

/** Weather: what a thermometer, a hygrometer and a barometer say. */
struct Weather
{
    double temperature = 293.15;   ///< K, 233.15 to 333.15 (-40 to 60 °C)
    double relativeHumidity = 0.5; ///< 0 to 1
    double pressure = 101325.0;    ///< Pa, 50 000 to 120 000
};

/** The air a drum moves. `density` 0 is a vacuum: no load outside, no spring inside. */
struct Air
{
    double density = 1.199;     ///< kg/m³
    double soundSpeed = 343.4;  ///< m/s
    double viscosity = 1.81e-5; ///< dynamic, Pa·s
    double heatRatio = 1.4;     ///< c_p / c_v
    double prandtl = 0.71;      ///< Prandtl number

    bool isVacuum() const noexcept { return density <= 0.0; }

    /** Moist air: density after CIPM-2007, speed of sound as √(γ p / ρ) of the same moist gas. */
    static Air from (const Weather&);
    static Air vacuum() noexcept;
};

/** Throws InputError if the weather is outside the ranges given beside its members. */
void check (const Weather&);

} // namespace modal
