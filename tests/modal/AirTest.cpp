#include "Modal/air/Absorption.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "tests/Catch.h"

#include <array>
#include <cmath>
#include <limits>

namespace
{
modal::Air at (double celsius, double humidity, double pascal = 101325.0)
{
    return modal::Air::from ({ celsius + modal::units::zeroCelsius, humidity, pascal });
}
} // namespace

TEST_CASE ("Density of dry air agrees with published values", "[air]")
{
    // 1.2929 kg/m³ at 0 °C and 101 325 Pa, the handbook value for dry air (from memory).
    CHECK (at (0.0, 0.0).density == Approx (1.2929).epsilon (5.0e-4));
    // 1.2250 kg/m³ at 15 °C and 101 325 Pa: ISO 2533, the standard atmosphere, which is an ideal gas: 0.04 % less than a real
    // one.
    CHECK (at (15.0, 0.0).density == Approx (1.2250).epsilon (8.0e-4));
}

TEST_CASE ("Density of moist air agrees with CIPM-2007", "[air]")
{
    // 20 °C, 101 325 Pa, 50 %: 1.1992 kg/m³ by the CIPM-2007 equation (Picard, Davis, Gläser & Fujii, Metrologia 45 (2008) 149;
    // from memory).
    CHECK (at (20.0, 0.5).density == Approx (1.1992).epsilon (2.0e-4));

    // Water lightens air by 0.378·e/(R_d T). Saturated vapour: 2339 Pa at 20 °C, 7384 Pa at 40 °C (steam tables, from memory).
    constexpr double dryGasConstant = 287.05;
    for (const auto& [celsius, saturation] : { std::pair{ 20.0, 2339.0 }, std::pair{ 40.0, 7384.0 } })
    {
        const double lighter = at (celsius, 0.0).density - at (celsius, 1.0).density;
        CHECK (lighter == Approx (0.378 * saturation / (dryGasConstant * (celsius + 273.15))).epsilon (0.015));
    }
}

TEST_CASE ("Speed of sound agrees with ISO 9613-1 and the classical values", "[air]")
{
    // ISO 9613-1: c = 343.2·√(T/293.15) m/s. Its reference is for air at about the humidity of a room.
    for (const double celsius : { -10.0, 0.0, 10.0, 20.0, 30.0, 40.0 })
    {
        CAPTURE (celsius);
        CHECK (at (celsius, 0.0).soundSpeed == Approx (343.2 * std::sqrt ((celsius + 273.15) / 293.15)).epsilon (1.0e-3));
    }
    // 331.3 m/s in dry air at 0 °C (Wong 1986, from memory: 331.29).
    CHECK (at (0.0, 0.0).soundSpeed == Approx (331.29).epsilon (1.0e-3));
    // Damp air is faster: some 0.35 % from dry to saturated at 20 °C (Cramer 1993, from memory: 344.4 against 343.2).
    const double gain = at (20.0, 1.0).soundSpeed / at (20.0, 0.0).soundSpeed - 1.0;
    CHECK (gain > 0.0025);
    CHECK (gain < 0.0045);
}

TEST_CASE ("Speed of sound hardly depends on pressure, density is proportional to it", "[air]")
{
    const auto low = at (20.0, 0.0, 80000.0), high = at (20.0, 0.0, 100000.0);
    CHECK (low.soundSpeed == Approx (high.soundSpeed).epsilon (2.0e-4));
    CHECK (high.density / low.density == Approx (1.25).epsilon (2.0e-4));
}

TEST_CASE ("Viscosity of air agrees with Sutherland's law", "[air]")
{
    // μ = 1.716e-5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4) Pa·s (from memory).
    for (const double celsius : { 0.0, 20.0, 40.0 })
    {
        const double kelvin = celsius + 273.15;
        CHECK (at (celsius, 0.3).viscosity ==
               Approx (1.716e-5 * std::pow (kelvin / 273.15, 1.5) * 383.55 / (kelvin + 110.4)).epsilon (0.015));
    }
}

TEST_CASE ("The default air is that of an ordinary room", "[air]")
{
    const modal::Air byDefault, room = at (20.0, 0.5);
    CHECK (byDefault.density == Approx (room.density).epsilon (1.0e-3));
    CHECK (byDefault.soundSpeed == Approx (room.soundSpeed).epsilon (1.5e-3));
}

TEST_CASE ("Weather outside its range is refused", "[air]")
{
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const modal::Weather& weather :
         { modal::Weather{ .temperature = 200.0 }, modal::Weather{ .temperature = 400.0 }, modal::Weather{ .temperature = nan },
           modal::Weather{ .relativeHumidity = -0.01 }, modal::Weather{ .relativeHumidity = 1.01 },
           modal::Weather{ .relativeHumidity = nan }, modal::Weather{ .pressure = 0.0 }, modal::Weather{ .pressure = 200000.0 } })
        CHECK_THROWS_AS (modal::Air::from (weather), modal::InputError);

    CHECK (modal::Air::vacuum().isVacuum());
}

TEST_CASE ("Sound is absorbed by air as ISO 9613-1 says", "[air]")
{
    // ISO 9613-2, table 2 (from memory): dB/km in octaves from 63 Hz to 8 kHz; their exact middles are powers of 10^0.3.
    struct Row
    {
        double celsius, humidity;
        std::array<double, 8> perKilometre;
    };
    for (const auto& row : { Row{ 10.0, 0.7, { 0.1, 0.4, 1.0, 1.9, 3.7, 9.7, 32.8, 117.0 } },
                             Row{ 20.0, 0.7, { 0.1, 0.3, 1.1, 2.8, 5.0, 9.0, 22.9, 76.6 } },
                             Row{ 30.0, 0.7, { 0.1, 0.3, 1.0, 3.1, 7.4, 12.7, 23.1, 59.3 } },
                             Row{ 15.0, 0.2, { 0.3, 0.6, 1.2, 2.7, 8.2, 28.2, 88.8, 202.0 } },
                             Row{ 15.0, 0.5, { 0.1, 0.5, 1.2, 2.2, 4.2, 10.8, 36.2, 129.0 } },
                             Row{ 15.0, 0.8, { 0.1, 0.3, 1.1, 2.4, 4.1, 8.3, 23.7, 82.8 } } })
        for (std::size_t octave = 0; octave < row.perKilometre.size(); ++octave)
        {
            const double frequency = 1000.0 * std::pow (10.0, 0.3 * (static_cast<double> (octave) - 4.0));
            CHECK (1000.0 * modal::airAbsorption ({ row.celsius + 273.15, row.humidity }, frequency) ==
                   Approx (row.perKilometre[octave]).epsilon (0.005).margin (0.06));
        }
}
