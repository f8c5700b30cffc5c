// What the wires do to the ring of the drum note, and to the first peak.

#include "TestDrum.h"
#include "tests/Catch.h"

#include "Engine/DecayTime.h"
#include "Engine/PlayedBand.h"
#include "Engine/PlayedRing.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace
{
double predictedRing (const engine::DrumSetup& setup)
{
    return std::find_if (setup.modes.modes.begin(), setup.modes.modes.end(), [] (const auto& mode) { return ! mode.isAirMode; })
        ->decay.t60();
}

engine::DrumSetup withWires (bool areOn)
{
    auto setup = testdrum::snare (2000.0);
    setup.wires.on = areOn;
    return setup;
}

/** Highest pressure above the batter within 0.3 s of a stroke at 6 m/s, Pa. */
double peakOf (engine::DrumSetup setup)
{
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    engine::Drum drum (std::make_shared<const engine::DrumModel> (setup));
    engine::Stroke stroke;
    stroke.speed = 6.0;
    drum.strike (stroke);
    float peak = 0.0f;
    for (const float sample : testdrum::listen (drum, 14400))
        peak = std::max (peak, std::abs (sample));
    return engine::fullScalePressure * static_cast<double> (peak);
}
} // namespace

TEST_CASE ("Decay time is that of an exponential fall, whatever rises again before -35 dB", "[ring]")
{
    constexpr double step = 0.005, t60 = 0.4;
    std::vector<double> levels;
    for (int i = 0; i < 200; ++i)
        levels.push_back (-60.0 / t60 * step * i);
    CHECK (engine::decayTime (levels, step) == Approx (t60));
    CHECK (engine::decayTime (levels, step, -25.0) == Approx (t60));

    levels[10] = -30.0; // a dip
    CHECK (engine::decayTime (levels, step) == Approx (t60));

    CHECK (std::isinf (engine::decayTime ({ -1.0, -1.0, -1.0 }, step)));
}

TEST_CASE ("Without wires the drum note rings as long as its mode's losses say", "[ring]")
{
    const auto setup = withWires (false);
    CHECK (engine::playedRing (setup) == Approx (predictedRing (setup)).epsilon (0.03));
}

TEST_CASE ("Wires shorten the ring of the drum note (common practice, no source)", "[ring]")
{
    const auto setup = withWires (true);
    CHECK (engine::playedRing (setup) < 0.7 * predictedRing (setup));
    CHECK (engine::playedRing (setup) > 0.05 * predictedRing (setup));
}

TEST_CASE ("Wires hardly change the peak above the batter, which the stick makes (common practice, no source)", "[ring]")
{
    const double off = peakOf (withWires (false)), on = peakOf (withWires (true));
    CAPTURE (off, on);
    CHECK (on < 1.4 * off);
    CHECK (on > 0.8 * off);
}
