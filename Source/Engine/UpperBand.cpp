#include "UpperBand.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine
{
namespace
{

/** Modes from this share of the band's end up speak for those above. */
constexpr double speakingShare = 0.6;

/** Slower than this nothing dies away, 1/s: heads without loss are for tests alone. */
constexpr double slowestDecay = 5.0;

/** A microphone that looks along a head still hears it from this much aside, cosθ. */
constexpr double flattestLook = 0.05;

double cosine (const UpperHead& head, double x, double y, const Microphone& microphone) noexcept
{
    const double above = head.faces * (microphone.z - head.height);
    return above / std::hypot (microphone.x - x, microphone.y - y, above);
}

/** Share of one head in the square of a mode's shape, mean over the head's area, 1/kg. */
double meanSquare (const DrumSetup& setup, std::size_t head, int mode)
{
    const auto& shares = head == 0 ? setup.modes.batter : setup.modes.resonant;
    return shares.col (mode).squaredNorm() / (modal::units::pi * setup.modes.radius * setup.modes.radius);
}

/** Level and decay of what the modes near the band's end answer to a push on this head. */
void measureEcho (const DrumSetup& setup, const std::vector<ModalPressure>& pressures, std::size_t index, double highest,
                  UpperHead& head)
{
    const double lowest = speakingShare * highest;
    double weight = 0.0, slowness = 0.0, filmSlowness = 0.0;
    for (int k = 0; k < setup.modes.size(); ++k)
    {
        const auto& mode = setup.modes.modes[static_cast<std::size_t> (k)];
        if (mode.frequency < lowest || mode.frequency > highest)
            continue;
        const double decay = std::max (mode.decay.total(), slowestDecay), omega = mode.angularFrequency();
        const double pushed = meanSquare (setup, index, k);
        for (std::size_t m = 0; m < pressures.size(); ++m)
        {
            // A mode answers a push of 1 N s with φω sin ωt exp(-αt) in acceleration: energy φ²ω²/4α, twice the integral over
            // the band of the spectrum's square.
            const double loudness =
                pushed * (std::pow (omega * pressures[m].acceleration[k], 2) + std::pow (pressures[m].velocity[k], 2));
            head.modesEcho[m] += loudness / (4.0 * decay) / (2.0 * (highest - lowest));
        }
        weight += pushed;
        slowness += pushed / decay;
        filmSlowness += pushed / decay * (mode.decay.film + mode.decay.ply) / decay;
    }
    if (weight <= 0.0)
        return;
    head.echoDecay = weight / slowness;
    // The film's own loss grows with the frequency, the rest does not.
    head.echoDecayRise = head.echoDecay * filmSlowness / slowness / highest;
    // With the same sound from each mode's push, more modes and more loss as the frequency rises, the level stays about the same
    // (the test measures it); an echo that loses more loses level. So it is right half an octave above the band's end.
    for (std::size_t m = 0; m < head.echo.size(); ++m)
        head.echo[m] = head.modesEcho[m] * (1.0 + (std::numbers::sqrt2 - 1.0) * highest * head.echoDecayRise / head.echoDecay);
}

} // namespace

DirectPath UpperBand::directPath (int head, double x, double y, const modal::Air& air,
                                  const Microphone& microphone) const noexcept
{
    const auto& film = heads[static_cast<std::size_t> (head)];
    if (film.density <= 0.0 || cosine (film, x, y, microphone) <= 0.0)
        return {};
    const double distance = std::max (0.01, std::hypot (microphone.x - x, microphone.y - y, microphone.z - film.height));
    // Sticks and wires push inwards, which is heard as a pull on the air outside.
    return { -microphone.signedGain() * air.density / (modal::units::twoPi * film.density * distance),
             distance / air.soundSpeed };
}

UpperBand upperBandOf (const DrumSetup& setup, const std::vector<ModalPressure>& pressures)
{
    UpperBand band;
    const auto& modes = setup.modes;
    if (modes.air.isVacuum())
        return band;

    band.lowest = modes.highestFrequency;
    for (std::size_t index = 0; index < 2; ++index)
    {
        auto& head = band.heads[index];
        head.density = index == 0 ? setup.batterDensity : setup.resonantDensity;
        head.height = index == 0 ? 0.0 : -modes.depth;
        head.faces = index == 0 ? 1.0 : -1.0;
        if (head.density <= 0.0)
            continue;
        const double tension = index == 0 ? setup.tensions.batter : setup.tensions.resonant;
        head.freePath = 0.5 * modal::units::pi * modes.radius / std::sqrt (tension / head.density);
        for (std::size_t m = 0; m < setup.microphones.size(); ++m)
            head.corner[m] =
                modes.air.density * modes.air.soundSpeed /
                (modal::units::pi * head.density * std::max (flattestLook, cosine (head, 0.0, 0.0, setup.microphones[m])));
        measureEcho (setup, pressures, index, band.lowest, head);
    }
    return band;
}

} // namespace engine
