#include "TestDrum.h"

#include "Score/MidiNotes.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace
{

/** How often the first striker lands within a time. */
int landings (engine::Stroke stroke, double seconds)
{
    auto setup = testdrum::snare (1000.0);
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.strike (stroke);
    int count = 0;
    bool touching = false;
    for (int i = 0; i < static_cast<int> (seconds * setup.sampleRate); ++i)
    {
        testdrum::run (drum, 1);
        const bool now = testdrum::tipForce (drum) > 0.0;
        count += now && ! touching ? 1 : 0;
        touching = now;
    }
    return count;
}

} // namespace

TEST_CASE ("MIDI velocity maps to speed as documented")
{
    CHECK (score::speedOfVelocity (1) == Approx (0.25));
    CHECK (score::speedOfVelocity (127) == Approx (10.0));
    CHECK (score::speedOfVelocity (64) == Approx (std::sqrt (0.25 * 10.0)));
    CHECK (score::speedOfVelocity (0) == Approx (0.25));
    CHECK (score::speedOfVelocity (500) == Approx (10.0));
}

// General MIDI level 1 sound set: 37 side stick, 38 acoustic snare. A rimshot on 40 is common practice, no source.
TEST_CASE ("the notes of side stick, snare and rimshot play, each note has one stroke, other notes play nothing")
{
    engine::Stroke stroke;
    REQUIRE (score::strokeForNote (37, 100, stroke));
    CHECK (stroke.kind == engine::StrokeKind::crossStick);
    REQUIRE (score::strokeForNote (38, 100, stroke));
    CHECK (stroke.kind == engine::StrokeKind::tip);
    REQUIRE (score::strokeForNote (40, 100, stroke));
    CHECK (stroke.kind == engine::StrokeKind::rimshot);
    CHECK_FALSE (score::strokeForNote (60, 100, stroke));
    std::set<int> notes;
    for (const auto& entry : score::strokeNotes())
        notes.insert (entry.note);
    CHECK (notes.size() == score::strokeNotes().size());
}

TEST_CASE ("a plain stroke lands once or bounces off for good, a pressed stick keeps bouncing")
{
    engine::Stroke tip, buzz;
    buzz.kind = engine::StrokeKind::buzz;
    CHECK (landings (tip, 0.2) <= 3);
    CHECK (landings (buzz, 0.25) >= 6);
}

TEST_CASE ("a rimshot shakes the hoop, a stroke on the head does not")
{
    auto setup = testdrum::snare (1000.0);
    setup.wires.on = false;
    setup.microphones = { { "side", 0.5, 0.2, 0.1 } };
    const auto model = std::make_shared<engine::DrumModel> (setup);
    // Without wires the bank is the drum's modes, then the bending modes of hoop and shell.
    const auto ringing = [&] (engine::StrokeKind kind)
    {
        engine::Drum drum (model);
        engine::Stroke stroke;
        stroke.kind = kind;
        drum.strike (stroke);
        testdrum::run (drum, 480);
        double sum = 0.0;
        for (int k = model->headModes(); k < model->modes(); ++k)
            sum += std::abs (static_cast<double> (drum.state().position[k]));
        return sum;
    };
    CHECK (ringing (engine::StrokeKind::rimshot) > 0.0);
    CHECK (ringing (engine::StrokeKind::crossStick) > 0.0);
    CHECK (ringing (engine::StrokeKind::tip) == 0.0);
}

TEST_CASE ("strokes and blows with not-a-number or values out of range play like the nearest valid ones")
{
    const auto model = std::make_shared<engine::DrumModel> (testdrum::snare (1000.0));
    const double none = std::nan (""), endless = std::numeric_limits<double>::infinity();
    for (const double value : { none, endless, -endless, -1.0, 1.0e300 })
        for (int kind = 0; kind < 5; ++kind)
        {
            engine::Drum drum (model);
            engine::Stroke stroke{
                static_cast<engine::StrokeKind> (kind), value, value, value, value, value, value, value, value
            };
            engine::Blow blow;
            for (double* field :
                 { &blow.delay, &blow.radius, &blow.angle, &blow.speed, &blow.hoopAngle, &blow.hoopDistance, &blow.hoopLag,
                   &blow.swingLength, &blow.hand, &blow.holdTime, &blow.handTime, &blow.lift })
                *field = value;
            CHECK (drum.strike (stroke));
            CHECK (drum.strike (blow));
            testdrum::run (drum, 4800);
            CAPTURE (value, kind);
            CHECK (std::isfinite (drum.energy()));
        }
}

TEST_CASE ("a stroke of two blows is queued as a whole or not at all")
{
    const auto model = std::make_shared<engine::DrumModel> (testdrum::snare (1000.0));
    {
        const auto kind = engine::StrokeKind::doubleStroke;
        engine::Drum drum (model);
        // One place is left; these land much later.
        for (int i = 0; i < 63; ++i)
            REQUIRE (drum.strike (engine::Stroke{}, 48000));
        engine::Stroke stroke;
        stroke.kind = kind;
        CHECK_FALSE (drum.strike (stroke));
        testdrum::run (drum, 64);
        CHECK (drum.isSilent());
        CHECK (drum.strike (engine::Stroke{}));
        CHECK_FALSE (drum.strike (engine::Stroke{}));
    }
}

TEST_CASE ("a rimshot is one blow of a stick that meets head and hoop within a millisecond")
{
    engine::Stroke stroke;
    stroke.kind = engine::StrokeKind::rimshot;
    stroke.rimLag = -5.0;
    const auto body = modal::solveStick ({});
    const auto blows = engine::blowsOf (stroke, body, 0.1778);
    REQUIRE (blows.count == 1);
    CHECK (blows.blow[0].meetsHoop);
    CHECK (blows.blow[0].hoopLag == Approx (-1.0e-3));
    // From a quarter of the radius to the hoop, which stands some millimetres outside the bearing edge.
    CHECK (blows.blow[0].hoopDistance == Approx (0.75 * 0.1778).margin (0.01));
}

TEST_CASE ("the hand of a cross-stick leaves the head silently and adds no energy")
{
    auto setup = testdrum::snare (1000.0);
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth)[1] };
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (setup));
    drum.countEnergy (true);
    engine::Stroke stroke;
    stroke.kind = engine::StrokeKind::crossStick;
    stroke.position = 0.45;
    drum.strike (stroke);
    const auto power = [&] (double seconds)
    {
        double sum = 0.0;
        for (const double x : testdrum::listen (drum, static_cast<int> (seconds * setup.sampleRate)))
            sum += x * x;
        return sum / seconds;
    };
    const double knock = power (0.05);
    power (0.1);
    const double resting = power (0.05);
    REQUIRE (drum.state().sticks[0].active);
    const double leaving = std::max ({ power (0.1), power (0.1), power (0.1), power (0.1) });
    CHECK_FALSE (drum.state().sticks[0].active);
    INFO (10.0 * std::log10 (resting / knock)
          << " dB while it rests, at most " << 10.0 * std::log10 (leaving / knock) << " dB after");
    CHECK (leaving < 0.03 * knock);
    CHECK (std::abs (testdrum::imbalance (drum)) < 1.0e-9 * drum.energyFlows().work);
}

// Common practice, no source: with the strainer off the wires are silent; on, they add sound far above the heads' notes.
TEST_CASE ("wires add sound above 3 kHz, and with the strainer off it is gone")
{
    const auto brightness = [] (bool on)
    {
        auto setup = testdrum::snare (2000.0);
        setup.wires.on = on;
        setup.microphones = { engine::defaultMicrophones (setup.modes.depth)[1] };
        engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
        drum.strike (engine::Stroke{});
        testdrum::run (drum, 960);
        const auto sound = testdrum::listen (drum, 4800);
        // Second differences weight a sine by the square of its frequency, its power by the fourth.
        double high = 0.0;
        for (std::size_t i = 2; i < sound.size(); ++i)
            high += std::pow (static_cast<double> (sound[i] - 2.0f * sound[i - 1] + sound[i - 2]), 2);
        return 10.0 * std::log10 (high);
    };
    CHECK (brightness (true) > brightness (false) + 20.0);
}

TEST_CASE ("strokes beyond the queue's capacity are refused with false")
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (testdrum::snare (500.0)));
    int taken = 0;
    for (int i = 0; i < 100; ++i)
        taken += drum.strike (engine::Stroke{}, 1000 + i) ? 1 : 0;
    CHECK (taken == 64);
    drum.reset();
    CHECK (drum.strike (engine::Stroke{}));
}
