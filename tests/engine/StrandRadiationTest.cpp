// The strands' own sound is left out; this is why.

#include "Engine/UpperBand.h"
#include "Modal/hardware/Wires.h"
#include "TestDrum.h"

#include "tests/Catch.h"

#include <cmath>
#include <numbers>

TEST_CASE ("What strands radiate by themselves is 25 dB below what their force makes the head radiate, up to 16 kHz")
{
    // A strand that a force F moves as a free mass m has the velocity F/ωm. If the coil were a closed cylinder of radius b it
    // would be a row of dipoles of the strength 2ρπb²ℓωv, heard along its axis of motion at the distance d as ω/(4πcd) times that
    // (oscillating cylinder at small kb: its displaced and its entrained air; Fletcher & Rossing, chapter 7, from memory). Air
    // that passes between the turns makes it less. The head radiates the same force as UpperBand has it, without its
    // reverberation.
    const auto setup = testdrum::snare();
    const modal::WireSpec wires;
    const auto& air = setup.modes.air;
    const double coilRadius = 1.2e-3, distance = 0.1;
    const double length = 2.0 * wires.lengthShare * setup.modes.radius;

    engine::UpperBand band;
    band.heads[1].density = setup.resonantDensity;
    band.heads[1].height = -setup.modes.depth;
    band.heads[1].faces = -1.0;
    engine::Microphone below;
    below.x = 0.0;
    below.z = -setup.modes.depth - distance;
    const double ofHead = std::abs (band.directPath (1, 0.0, 0.0, air, below).gain);
    REQUIRE (ofHead > 0.0);

    for (const double frequency : { 2000.0, 4000.0, 8000.0, 16000.0 })
    {
        const double omega = 2.0 * std::numbers::pi * frequency;
        const double strength = 2.0 * air.density * std::numbers::pi * coilRadius * coilRadius * length / wires.strandMass;
        const double ofStrand = strength * omega / (4.0 * std::numbers::pi * air.soundSpeed * distance);
        CAPTURE (frequency);
        CHECK (20.0 * std::log10 (ofStrand / ofHead) < -25.0);
    }
}
