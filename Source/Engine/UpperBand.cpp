#include "UpperBand.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine
{
namespace
{

/** Modes from this share of the band's upper end on represent those above. */
constexpr double respondingShare = 0.6;

/** Least decay rate, 1/s; heads without loss occur in tests only. */
constexpr double slowestDecay = 5.0;

/** Least cosθ, for a microphone in the plane of a head. */
constexpr double flattestLook = 0.05;

double cosine (const UpperHead& head, double x, double y, const Microphone& microphone) noexcept
{
    const double above = head.faces * (microphone.z - head.height);
    return above / std::hypot (microphone.x - x, microphone.y - y, above);
}

/** Square of a mode's shape on one head, mean over its area, 1/kg. */
double meanSquare (const DrumSetup& setup, std::size_t head, int mode)
{
    const auto& shares = head == 0 ? setup.modes.batter : setup.modes.resonant;
    return shares.col (mode).squaredNorm() / (modal::units::pi * setup.modes.radius * setup.modes.radius);
}

/** Level and decay of the response of the modes near the band's end to a force on this head. */
void measureTail (const DrumSetup& setup, const std::vector<ModalPressure>& pressures, std::size_t index, double highest,
                  UpperHead& head)
{
    const double lowest = respondingShare * highest;
    double weight = 0.0, slowness = 0.0, rise = 0.0;
    for (int k = 0; k < setup.modes.size(); ++k)
    {
        const auto& mode = setup.modes.modes[static_cast<std::size_t> (k)];
        if (mode.frequency < lowest || mode.frequency > highest)
            continue;
        const double decay = std::max (mode.decay.total(), slowestDecay), omega = mode.angularFrequency();
        const double pushed = meanSquare (setup, index, k);
        for (std::size_t m = 0; m < pressures.size(); ++m)
        {
            // The acceleration of a mode after an impulse of 1 N s is φω sin ωt exp(-αt), with the energy φ²ω²/4α: twice the
            // integral of the squared spectrum over the band.
            const double loudness =
                pushed * (std::pow (omega * pressures[m].acceleration[k], 2) + std::pow (pressures[m].velocity[k], 2));
            head.modalTailLevel[m] += loudness / (4.0 * decay) / (2.0 * (highest - lowest));
        }
        weight += pushed;
        slowness += pushed / decay;
        // The film's loss grows with frequency, where it bends with the third power of that; the rest stays. In an octave:
        rise += pushed / decay * (mode.decay.film + mode.decay.ply + 7.0 * mode.decay.bending) / decay;
    }
    if (weight <= 0.0)
        return;
    head.tailDecay = weight / slowness;
    head.tailDecayRise = head.tailDecay * rise / slowness / highest;
    // With the same pressure per mode, more modes and more loss as frequency rises, the level stays about the same (UpperBandTest
    // measures it), while a network with more loss gets quieter. The level is set to be right half an octave above the band's
    // end.
    for (std::size_t m = 0; m < head.tailLevel.size(); ++m)
        head.tailLevel[m] =
            head.modalTailLevel[m] * (1.0 + (std::numbers::sqrt2 - 1.0) * highest * head.tailDecayRise / head.tailDecay);
}

} // namespace

DirectPath UpperBand::directPath (int head, double x, double y, const modal::Air& air,
                                  const Microphone& microphone) const noexcept
{
    const auto& film = heads[static_cast<std::size_t> (head)];
    if (film.density <= 0.0 || cosine (film, x, y, microphone) <= 0.0)
        return {};
    const double distance = std::max (0.01, std::hypot (microphone.x - x, microphone.y - y, microphone.z - film.height));
    // Sticks and wires push inwards, which makes negative pressure outside.
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
        measureTail (setup, pressures, index, band.lowest, head);
    }
    return band;
}

} // namespace engine
