#include "FilmUnderWire.h"

#include "Bank.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** The waves that ring reach from the drum's highest mode to this many times its wave number. */
constexpr double ringingSpan = 2.7;

/** Static deflection under a model strand's force by waves within `reach`, m/N. */
double compliance (double reach, double tension, double contactSize, double standsFor)
{
    return std::log (reach / contactSize) / (modal::units::twoPi * tension * standsFor);
}

} // namespace

FilmUnderWire filmUnderWire (const DrumSetup& setup)
{
    const auto& wires = setup.wires;
    const double tension = setup.tensions.resonant, density = setup.resonantDensity;
    const double standsFor = std::max (1.0, static_cast<double> (wires.strands) / setup.wireDetail.strands);
    const double highest = std::min (setup.modes.highestFrequency, highestShareOfRate * setup.sampleRate);
    const double least = 2.0 * wires.contactSize; // keeps the spring finite
    FilmUnderWire film;

    if (! (density > 0.0 && highest > 0.0))
    {
        double finest = 0.0;
        for (const auto& function : setup.modes.basis)
            finest = std::max (finest, function.zero / setup.modes.radius);
        film.stiffness = 1.0 / compliance (std::max (1.0 / finest, least), tension, wires.contactSize, standsFor);
        return film;
    }

    const double omega = modal::units::twoPi * highest;
    const double reach = std::max (std::sqrt (tension / density) / omega, least), rest = std::max (reach / ringingSpan, least);
    film.stiffness = 1.0 / compliance (rest, tension, wires.contactSize, standsFor);
    film.resistance = film.stiffness * film.stiffness / (4.0 * standsFor * tension * 2.0 * omega * reach / rest);

    const double width = std::log (reach / rest);
    film.hasWave = width > 0.05;
    if (! film.hasWave)
        return film;
    film.waveFrequency = std::min (highest * std::exp (0.5 * width), highestFilmShare * setup.sampleRate);
    const double rings = modal::units::twoPi * film.waveFrequency, damping = 0.5 * width;
    film.waveDecay = damping * rings;
    const double gives =
        compliance (reach, tension, wires.contactSize, standsFor) - compliance (rest, tension, wires.contactSize, standsFor);
    film.waveShape = std::sqrt (gives * (1.0 + damping * damping)) * rings;
    return film;
}

} // namespace engine
