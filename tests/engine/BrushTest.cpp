// A brush's wires: they land one after another, sweep over the head's roughness, and take no more energy than the hand gives.

#include "TestDrum.h"

#include "Engine/Brightness.h"
#include "Engine/PlayedResponse.h"

#include "Modal/InputError.h"
#include "Score/MidiNotes.h"
#include "Score/PatternText.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

modal::StickSpec wireBrush()
{
    modal::StickSpec stick;
    stick.brushWires = 100;
    return stick;
}

engine::DrumSetup brushedSnare (double coating = 0.04)
{
    modal::DrumSpec spec;
    spec.batter.coatingDensity = coating;
    modal::Tuning tuning;
    tuning.target = modal::ByTapNotes{ 238.0, 318.0 };
    const auto tensions = modal::tensionsFor (spec, tuning);
    modal::SolveOptions options;
    options.highestFrequency = 1500.0;
    modal::Fittings fittings;
    fittings.stick = wireBrush();
    auto setup = engine::setUp (spec, tensions, modal::solve (spec, tensions, options), fittings);
    setup.microphones = { engine::defaultMicrophones (spec.depth).front() };
    return setup;
}

engine::Stroke sweep (double speed, double force, double seconds)
{
    engine::Stroke stroke;
    stroke.kind = engine::StrokeKind::sweep;
    stroke.position = 0.5;
    stroke.speed = speed;
    stroke.sweepForce = force;
    stroke.sweepTime = seconds;
    return stroke;
}

struct Hiss
{
    double level = 0.0, brightness = 0.0; ///< dB, Hz
};

/** Of a sweep once it is under way. */
Hiss hissOf (const engine::DrumSetup& setup, double speed, double force)
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.strike (sweep (speed, force, 1.0));
    testdrum::listen (drum, 7200);
    const auto sound = testdrum::listen (drum, 14400);
    double energy = 0.0;
    for (const float sample : sound)
        energy += static_cast<double> (sample) * static_cast<double> (sample);
    return { 10.0 * std::log10 (energy), engine::brightnessOf (sound, setup.sampleRate) };
}

template <typename Drum>
int bodiesOn (const Drum& drum)
{
    return static_cast<int> (
        std::count_if (drum.state().sticks, drum.state().sticks + engine::maxSticks, [] (const auto& stick) { return stick.active; }));
}

} // namespace

TEST_CASE ("A brush that taps, presses and sweeps never gains more energy than its hand's work, and the balance closes")
{
    auto setup = brushedSnare();
    setup.microphones.clear();
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (setup));
    drum.countEnergy (true);
    engine::Stroke tap, press;
    press.kind = engine::StrokeKind::buzz;
    press.pressTime = 0.05;
    auto straight = sweep (1.5, 0.8, 0.2);
    straight.sweepsStraight = true;
    const engine::Stroke strokes[] = { tap, press, straight, sweep (0.6, 0.3, 0.1) };
    double before = 0.0, largest = 0.0;
    for (int b = 0; b < 60; ++b)
    {
        if (b % 15 == 0)
            drum.strike (strokes[b / 15]);
        const double workBefore = drum.energyFlows().work;
        testdrum::run (drum, 240);
        const double now = drum.energy(), work = drum.energyFlows().work - workBefore;
        largest = std::max ({ largest, now, drum.energyFlows().work });
        CAPTURE (b, now, work, testdrum::imbalance (drum));
        REQUIRE (now - before <= work + 1.0e-10 * largest);
        REQUIRE (std::abs (testdrum::imbalance (drum)) <= 1.0e-10 * largest);
        before = now;
    }
    CHECK (largest > 1.0e-3);
}

TEST_CASE ("A brush keeps the energy balance in single precision")
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (brushedSnare()));
    drum.countEnergy (true);
    drum.strike (engine::Stroke{});
    drum.strike (sweep (0.6, 0.3, 0.3), 4800);
    double worst = 0.0;
    for (int b = 0; b < 60; ++b)
    {
        testdrum::run (drum, 480);
        worst = std::max (worst, testdrum::imbalance (drum));
    }
    INFO ("energy gained " << worst << " J of " << drum.energyFlows().work << " J");
    CHECK (worst < 2.0e-3 * drum.energyFlows().work);
}

TEST_CASE ("A brush's tap is softer than a stick's: its wires land over some milliseconds")
{
    auto setup = brushedSnare();
    const auto strike = [&]
    {
        engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
        drum.countEnergy (true);
        drum.strike (engine::Stroke{});
        testdrum::run (drum, 6000);
        REQUIRE (bodiesOn (drum) == 0);
        return drum.lastBlow();
    };
    const auto tap = strike();
    setup.stick = engine::usualStick();
    const auto stick = strike();
    CAPTURE (tap.landingTime, tap.contactTime, tap.peakForce, stick.peakForce);
    // The tips scatter by 9 mm, which pass at 3 m/s.
    CHECK (tap.landingTime > 2.0e-3);
    CHECK (tap.landingTime < 6.0e-3);
    CHECK (tap.peakForce < 0.3 * stick.peakForce);
    CHECK (stick.landingTime == 0.0);
}

// Common practice, no source: a faster sweep is louder and brighter, a firmer one louder, and a bare film gives next to nothing.
TEST_CASE ("A sweep's level and brightness rise with its speed, its level with its pressure")
{
    const auto setup = brushedSnare();
    const auto slow = hissOf (setup, 0.1, 0.3), usual = hissOf (setup, 0.4, 0.3), fast = hissOf (setup, 1.5, 0.3);
    const auto light = hissOf (setup, 0.4, 0.05), firm = hissOf (setup, 1.5, 1.0), bare = hissOf (brushedSnare (0.0), 0.4, 0.3);
    CAPTURE (slow.level, usual.level, fast.level, light.level, firm.level, bare.level);
    CAPTURE (slow.brightness, usual.brightness, fast.brightness);
    CHECK (usual.level > slow.level + 4.0);
    CHECK (fast.level > usual.level + 4.0);
    CHECK (usual.brightness > 1.2 * slow.brightness);
    CHECK (fast.brightness > 1.2 * usual.brightness);
    CHECK (usual.level > light.level + 1.0);
    CHECK (firm.level > fast.level + 1.0);
    CHECK (bare.level < usual.level - 15.0);
}

TEST_CASE ("A sweep ends in its time, before the rim if it is straight, or when it is told to; another model does not stop it")
{
    const auto setup = brushedSnare();
    const auto model = std::make_shared<engine::DrumModel> (setup);
    engine::Drum drum (model);
    drum.strike (sweep (0.5, 0.3, 0.2));
    testdrum::run (drum, 9600);
    CHECK (bodiesOn (drum) == setup.stick.groups);
    drum.setModel (std::make_shared<engine::DrumModel> (setup));
    CHECK (bodiesOn (drum) == setup.stick.groups);
    testdrum::run (drum, 9600);
    CHECK (bodiesOn (drum) == 0);

    drum.strike (sweep (0.5, 0.3, 20.0));
    testdrum::run (drum, 9600);
    drum.endSweeps();
    testdrum::run (drum, 9600);
    CHECK (bodiesOn (drum) == 0);

    drum.strike (sweep (0.5, 0.3, 20.0), 64);
    drum.endSweeps(); // while it waits
    testdrum::run (drum, 128);
    CHECK (bodiesOn (drum) == setup.stick.groups);
    testdrum::run (drum, 9600);
    CHECK (bodiesOn (drum) == 0);

    auto straight = sweep (3.0, 0.3, 20.0);
    straight.sweepsStraight = true;
    drum.strike (straight);
    testdrum::run (drum, 14400);
    CHECK (bodiesOn (drum) == 0);
}

TEST_CASE ("A sweep goes where it should: round the centre, or through it to the other side")
{
    engine::Blow blow;
    blow.radius = 0.1;
    blow.angle = 0.5;
    blow.sweepSpeed = 1.0;
    const auto round = engine::sweptTo (blow, 0.1 * modal::units::pi, 0.02, 0.18);
    CHECK (round.radius == Approx (0.12));
    CHECK (round.angle == Approx (0.5 + modal::units::pi));
    blow.sweepsStraight = true;
    const auto across = engine::sweptTo (blow, 0.15, 0.0, 0.18);
    CHECK (across.radius == Approx (0.05));
    CHECK (std::cos (across.angle) == Approx (-std::cos (0.5)));
    CHECK (engine::sweptTo (blow, 0.0, 1.0, 0.18).radius == Approx (0.98 * 0.18));
}

TEST_CASE ("In a pattern a sweep lasts a step, and a step more for each dash")
{
    const auto strokes = score::readPattern ("s--o w7..s", { 60.0, 4 }, "pattern");
    REQUIRE (strokes.size() == 4);
    CHECK (strokes[0].stroke.kind == engine::StrokeKind::sweep);
    CHECK (strokes[0].stroke.sweepTime == Approx (0.75));
    CHECK (strokes[1].time == Approx (0.75));
    CHECK (strokes[2].stroke.sweepsStraight);
    CHECK (strokes[2].stroke.sweepTime == Approx (0.25));
    CHECK (strokes[2].stroke.speed == Approx (score::speedOfVelocity (98, engine::StrokeKind::sweep)));
    CHECK_THROWS_AS (score::readPattern ("o-", { 60.0, 4 }, "pattern"), modal::InputError);
    CHECK_THROWS_AS (score::readPattern ("s.-", { 60.0, 4 }, "pattern"), modal::InputError);
}

TEST_CASE ("What is measured of a played brush is its tap and its sweep; the snare wires answer")
{
    const auto brush = engine::playedResponse (brushedSnare(), { .wirePositions = {} });
    CHECK (brush.isBrush);
    CHECK (brush.landingTime > 2.0e-3);
    CHECK (brush.snareSound > 0.0);
    CHECK (brush.rimshot.hoopForce == 0.0);
    CHECK (brush.sweep.brightness > 1000.0);
    CHECK (brush.sweep.level < 0.0);
}

TEST_CASE ("Nothing is told of the sound of a drum without a microphone")
{
    auto setup = brushedSnare();
    setup.microphones.clear();
    const auto brush = engine::playedResponse (setup, { .wirePositions = {} });
    CHECK (brush.peakForce > 0.0);
    CHECK (brush.snareSound == 0.0);
    CHECK (brush.brightness == 0.0);
    CHECK (brush.sweep.brightness == 0.0);
}

TEST_CASE ("A stick does not sweep")
{
    auto setup = brushedSnare();
    setup.stick = engine::usualStick();
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    CHECK (drum.strike (sweep (1.0, 0.3, 0.2)));
    testdrum::run (drum, 64);
    CHECK (bodiesOn (drum) == 0);
}
