// A stick with a body on a whole drum: contact times, rimshots, the local stretch.

#include "TestDrum.h"

#include "Engine/PlayedResponse.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

engine::DrumSetup bareSnare (double batter, double resonant)
{
    const modal::DrumSpec spec;
    modal::Tuning tuning;
    tuning.target = modal::ByTapNotes{ batter, resonant };
    const auto tensions = modal::tensionsFor (spec, tuning);
    modal::SolveOptions options;
    options.highestFrequency = 1500.0;
    modal::Fittings fittings;
    fittings.wires.on = false;
    return engine::setUp (spec, tensions, modal::solve (spec, tensions, options), fittings);
}

engine::BlowReport playOne (const engine::DrumSetup& setup, const engine::Stroke& stroke)
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.strike (stroke);
    testdrum::run (drum, static_cast<int> (0.05 * setup.sampleRate));
    REQUIRE_FALSE (drum.state().sticks[0].active);
    return drum.lastBlow();
}

} // namespace

// A. Wagner, Analysis of drumbeats: interaction between drummer, drumstick and instrument, KTH 2006, abstract: contact times of 3 to 6 ms over
// dynamic levels, places on the head and tensions.
TEST_CASE ("A stick stays on the head for three to six milliseconds")
{
    for (const double note : { 190.0, 220.0, 260.0 })
    {
        const auto setup = bareSnare (note, 1.5 * note);
        for (const double speed : { 2.0, 4.0, 6.0 })
            for (const double position : { 0.05, 0.25, 0.5 })
            {
                engine::Stroke stroke;
                stroke.speed = speed;
                stroke.position = position;
                const auto report = playOne (setup, stroke);
                CAPTURE (note, speed, position, report.contactTime, report.peakForce);
                CHECK (report.contactTime > 0.003);
                CHECK (report.contactTime < 0.006);
                CHECK (report.reboundShare > 0.4);
                CHECK (report.reboundShare < 1.0);
            }
    }
}

// An independent calculation by finite differences of the same stick at 3 m/s, its shaft on a hoop of 1.2 kg at 900 Hz 13 cm behind the tip, both
// met within 0.3 ms: 0.5 to 1.6 ms on the head instead of 6, 140 to 340 N on the hoop.
TEST_CASE ("In a rimshot the hoop takes most of the force and the tip leaves the head early")
{
    const auto setup = bareSnare (220.0, 330.0);
    for (const double lag : { 0.0, 0.15e-3, 0.3e-3 })
    {
        engine::Stroke stroke;
        stroke.kind = engine::StrokeKind::rimshot;
        stroke.rimLag = lag;
        const auto report = playOne (setup, stroke);
        CAPTURE (lag, report.contactTime, report.peakForce, report.hoopForce);
        CHECK (report.contactTime > 0.3e-3);
        CHECK (report.contactTime < 1.6e-3);
        CHECK (report.hoopForce > 140.0);
        CHECK (report.hoopForce < 340.0);
        CHECK (report.peakForce < 25.0);
    }
}

// The same calculation: at 6 m/s the film's true strains shorten the contact from 6.3 to 5.2 ms and raise the peak force by 40 % against a film
// that does not stretch.
TEST_CASE ("The stretch of the film shortens a hard stroke's contact and raises its force, a soft one's hardly")
{
    auto setup = bareSnare (220.0, 330.0);
    auto linear = setup;
    linear.batterStretch = linear.resonantStretch = 0.0;
    engine::Stroke stroke;
    stroke.speed = 6.0;
    const auto hard = playOne (setup, stroke), hardLinear = playOne (linear, stroke);
    CAPTURE (hard.contactTime, hardLinear.contactTime, hard.peakForce, hardLinear.peakForce);
    CHECK (hard.contactTime / hardLinear.contactTime == Approx (5.2 / 6.3).margin (0.08));
    CHECK (hard.peakForce / hardLinear.peakForce == Approx (1.4).margin (0.15));
    stroke.speed = 0.3;
    CHECK (playOne (setup, stroke).peakForce == Approx (playOne (linear, stroke).peakForce).epsilon (0.03));
}

TEST_CASE ("A heavier stick stays longer, a nylon tip pushes no softer")
{
    auto setup = bareSnare (220.0, 330.0);
    const auto with = [&] (const modal::StickSpec& stick)
    {
        setup.stick = modal::solveStick (stick);
        return playOne (setup, {});
    };
    modal::StickSpec heavy, nylon;
    heavy.diameter = 17.0e-3;
    heavy.neckDiameter = 8.0e-3;
    nylon.tipMaterial = modal::StickSpec::TipMaterial::nylon;
    const auto usual = with ({});
    CHECK (with (heavy).contactTime > 1.1 * usual.contactTime);
    CHECK (with (nylon).peakForce > 0.97 * usual.peakForce);
}

// Common practice, no source: mallets are soft and dark, bundled rods quiet.
TEST_CASE ("A felt mallet stays longer than a stick and sounds darker, bundled rods push less")
{
    auto setup = bareSnare (220.0, 330.0);
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth)[0] };
    const auto with = [&] (const modal::StickSpec& stick)
    {
        setup.stick = modal::solveStick (stick);
        return engine::playedResponse (setup, { .wirePositions = {} });
    };
    modal::StickSpec ofFelt, bundle;
    ofFelt.tipDiameter = ofFelt.tipLength = 38.0e-3;
    ofFelt.neckDiameter = 12.0e-3;
    ofFelt.tipMaterial = modal::StickSpec::TipMaterial::felt;
    bundle.rodDiameter = 3.2e-3;
    const auto stick = with ({}), mallet = with (ofFelt), rods = with (bundle);
    CAPTURE (stick.contactTime, mallet.contactTime, rods.contactTime, stick.peakForce, mallet.peakForce, rods.peakForce,
             stick.brightness, mallet.brightness, rods.brightness);
    CHECK (mallet.contactTime > 1.2 * stick.contactTime);
    CHECK (mallet.brightness < stick.brightness);
    CHECK (rods.peakForce < 0.9 * stick.peakForce);
}
