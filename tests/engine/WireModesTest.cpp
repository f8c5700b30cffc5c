// The wires off the head: strands, end plates, straps.

#include "tests/Catch.h"

#include "Engine/WireModes.h"
#include "Modal/Units.h"

#include <cmath>

namespace
{

constexpr double headDiameter = 0.3556;

/** Strands without bending, all of one tension, so that they move together as one string does. */
modal::WireSpec plainWires()
{
    modal::WireSpec wires;
    wires.unevenness = 0.0;
    wires.bending = 0.0;
    wires.decayRate = 0.0;
    wires.decayPerOscillation = 0.0;
    return wires;
}

std::vector<engine::WireMode> modesOf (const modal::WireSpec& wires, engine::WireParity parity)
{
    return engine::solveWireModes ({ wires, headDiameter, 2, 32, 32 }, wires, parity);
}

/** Angular frequency at which two plates swing alike on a string: cos kx between them, for which the wave equation asks
    T·k·tan(kL/2) of what the plate resists with (a string on bodies; any textbook of acoustics), between two bounds. */
double swingsAt (const modal::WireSpec& wires, double low, double high)
{
    const double length = wires.lengthShare * headDiameter, pull = wires.strands * wires.strandTension,
                 speed = std::sqrt (pull * length / (wires.strands * wires.strandMass));
    const auto missing = [&] (double omega)
    {
        const double inertia = omega * omega * wires.plateMass, upright = pull / wires.plateWidth;
        // A thin bar of which the string moves one side and a strap holds the other.
        const double front = upright - inertia / 3.0, back = upright + pull / wires.strapLength - inertia / 3.0,
                     between = -upright - inertia / 6.0;
        const double k = omega / speed;
        return pull * k * std::tan (0.5 * k * length) - (front - between * between / back);
    };
    REQUIRE (missing (low) < 0.0);
    REQUIRE (missing (high) > 0.0);
    for (int i = 0; i < 60; ++i)
    {
        const double middle = 0.5 * (low + high);
        (missing (middle) < 0.0 ? low : high) = middle;
    }
    return low;
}

} // namespace

TEST_CASE ("wires on end plates swing as a string on bodies does")
{
    auto wires = plainWires();
    wires.plateMass = GENERATE (1.0e-3, 4.0e-3, 20.0e-3);
    wires.strapLength = GENERATE (6.0e-3, 18.0e-3, 50.0e-3);
    CAPTURE (wires.plateMass, wires.strapLength);
    const double length = wires.lengthShare * headDiameter;
    const double lowest = modal::units::twoPi * std::sqrt (wires.strandTension / (wires.strandMass * length)) / 2.0;

    // Below kL = π the tangent rises from 0 without end, and what the plate resists with falls: one mode.
    const auto modes = modesOf (wires, {});
    CHECK (modal::units::twoPi * modes.front().frequency ==
           Approx (swingsAt (wires, 1.0e-3 * lowest, 0.999999 * lowest)).epsilon (1.0e-3));
}

TEST_CASE ("wires on heavy plates move as they do between plates at rest")
{
    auto wires = plainWires();
    wires.bending = 3.4e-4;
    wires.plateMass = 1.0e3;
    const engine::StrandGeometry strands (wires, headDiameter, 2, 32, 32);
    for (const bool isOddInX : { false, true })
    {
        const auto modes = modesOf (wires, { isOddInX, false });
        // After those of the plates, rising and pitching.
        for (int i = 0; i < 4; ++i)
            CHECK (modes[static_cast<std::size_t> (i + 2)].frequency ==
                   Approx (strands.frequency (2 * i + (isOddInX ? 2 : 1), 0)).epsilon (1.0e-3));
    }
}

TEST_CASE ("the straps' loss damps the wires, and nothing does without it")
{
    auto wires = plainWires();
    for (const engine::WireParity parity :
         { engine::WireParity{ false, false }, { false, true }, { true, false }, { true, true } })
    {
        CAPTURE (parity.isOddInX, parity.isOddInY);
        wires.strapLoss = 0.0;
        for (const auto& mode : modesOf (wires, parity))
            CHECK (mode.decay == 0.0);
        // No mode can lose more than if all its spring were strap.
        wires.strapLoss = 0.2;
        const auto modes = modesOf (wires, parity);
        CHECK (modes.front().decay > 0.0);
        for (const auto& mode : modes)
            CHECK (mode.decay < 0.5 * 0.2 * modal::units::twoPi * mode.frequency);
    }
}

TEST_CASE ("strands of a group push as one on slow waves and each at its own time on fast ones")
{
    modal::WireSpec wires;
    wires.strands = 20;
    const engine::StrandGeometry strands (wires, headDiameter, 8, 8, 8);
    REQUIRE (strands.groupSize() == Approx (2.5));
    CHECK (strands.groupShare (0.0) == Approx (1.0));
    CHECK (strands.groupShare (20000.0) == Approx (1.0 / std::sqrt (2.5)));

    // Equal pulses at the ends of the half swings of strands whose tensions are even within ±unevenness: the mean power of two of
    // them together is 1/n + (1 - 1/n)·|mean of exp(iωt)|², by summing over many tensions.
    const double halfSwing = 0.5 / strands.frequency (1, 0);
    for (const double hertz : { 100.0, 200.0, 300.0, 400.0, 1000.0 })
    {
        CAPTURE (hertz);
        constexpr int steps = 1000;
        double real = 0.0, imaginary = 0.0;
        for (int i = 0; i < steps; ++i)
        {
            const double tension = 1.0 + wires.unevenness * (2.0 * (i + 0.5) / steps - 1.0);
            const double phase = modal::units::twoPi * hertz * halfSwing / std::sqrt (tension);
            real += std::cos (phase) / steps;
            imaginary += std::sin (phase) / steps;
        }
        const double together = real * real + imaginary * imaginary;
        CHECK (std::pow (strands.groupShare (hertz), 2) == Approx (together + (1.0 - together) / 2.5).margin (0.05));
    }

    wires.strands = 8;
    CHECK (engine::StrandGeometry (wires, headDiameter, 8, 8, 8).groupShare (5000.0) == Approx (1.0));
}
