#include "tests/Catch.h"

#include "KnownStrike.h"
#include "SyntheticDrum.h"

#include "Fitting/Lines.h"
#include "Listening/Nature.h"
#include "Listening/Partials.h"
#include "Listening/SharedNote.h"
#include "Listening/Taps.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <cmath>
#include <random>

using namespace fitting;
using namespace modal;

namespace
{
/** Damped sines from a time on, over white noise. */
listening::Recording sines (const std::vector<Partial>& partials, double noise)
{
    listening::Recording recording{ 48000.0, std::vector<double> (48000 * 3 / 2) };
    std::mt19937 random (3);
    std::normal_distribution<double> normal;

    for (std::size_t i = 0; i < recording.samples.size(); ++i)
    {
        const double t = static_cast<double> (i) / recording.sampleRate - 0.4;

        for (const auto& p : partials)
            if (t >= 0.0)
                recording.samples[i] += p.amplitude.real() * std::exp (-p.decay * t) * std::sin (units::twoPi * p.frequency * t);

        recording.samples[i] += noise * normal (random);
    }

    return recording;
}

Partial sine (double frequency, double decay, double amplitude)
{
    Partial p;
    p.frequency = frequency;
    p.decay = decay;
    p.amplitude = amplitude;
    return p;
}
} // namespace

TEST_CASE ("Damped sines come back with their frequencies and decays, close pairs too")
{
    const std::vector<Partial> truth{ sine (203.7, 6.0, 0.3), sine (209.1, 7.0, 0.25), sine (391.3, 11.0, 0.2),
                                      sine (742.0, 14.0, 0.1) };
    const auto recording = sines (truth, 1.0e-3);
    const auto taps = listening::findTaps (recording);
    REQUIRE (taps.size() == 1);
    CHECK (taps[0].start == Approx (0.4).margin (0.004));
    const auto found = listening::partialsOf (recording, taps[0], listening::quietestMoment (recording));

    for (const auto& wanted : truth)
    {
        double best = 1.0e9, decay = 0.0;

        for (const auto& p : found)
            if (std::abs (p.frequency - wanted.frequency) < best)
            {
                best = std::abs (p.frequency - wanted.frequency);
                decay = p.decay;
            }

        CHECK (best < 0.05);
        CHECK (decay == Approx (wanted.decay).epsilon (0.06));
    }
}

TEST_CASE ("Partials that most taps share are kept, others are left out")
{
    const auto parts = [] (std::vector<double> frequencies)
    {
        std::vector<Partial> partials;

        for (const double f : frequencies)
            partials.push_back ({ .frequency = f, .frequencyError = 0.01, .decay = 6.0, .amplitude = 0.1 });

        return partials;
    };
    // 0.4 Hz at 200 Hz are 3.5 cents: a pair that uneven lugs part.
    const auto lines =
        commonLines ({ parts ({ 170.0, 200.0, 300.0 }), parts ({ 200.4, 300.1 }), parts ({ 200.2, 300.0, 450.0 }) });
    REQUIRE (lines.size() == 2);
    CHECK (lines[0].frequency == Approx (200.2));
    CHECK (lines[0].strikes == 3);
    CHECK (lines[1].frequency == Approx (300.033).epsilon (1.0e-5));
    CHECK (lowestLoud (lines) == lines[0].frequency);
}

TEST_CASE ("The shared note of a lug check is the (1,1), not a (0,1) that is lower, as loud, and fades")
{
    // A deep drum, closed below, wires off, tapped at 0.86 of the radius: its (0,1) lies two semitones below the tap note. The
    // truth is the tension that the tap note was tuned to; the engine plays it.
    DrumSpec drum;
    drum.depth = 8.0 * units::inch;
    drum.bottom = Bottom::closed;
    const double tapNote = 220.0; // A3 (ISO 16)
    synthetic::Strike tap{ .drum = drum, .tensions = { tensionForTapNote (drum, HeadSide::batter, tapNote), 0.0 } };
    tap.wires.on = false;
    tap.position = 0.86;
    tap.speed = 1.0;

    struct Case
    {
        double speed, signalToNoise, roomShare, lugCents;
    };
    const Case cases[] = { { 1.0, 60.0, 0.0, 0.0 },
                           { 0.5, 60.0, 0.0, 0.0 },
                           { 3.0, 60.0, 0.0, 0.0 },
                           { 1.0, 40.0, 0.1, 0.0 },
                           { 1.0, 20.0, 0.1, 0.0 },
                           { 1.0, 40.0, 0.1, 20.0 },
                           { 1.0, 40.0, 0.1, -20.0 } };

    for (const auto& c : cases)
    {
        CAPTURE (c.speed, c.signalToNoise, c.roomShare, c.lugCents);
        tap.speed = c.speed;
        tap.tensions.batterLugs.assign (static_cast<std::size_t> (drum.lugs), 0.0);
        tap.tensions.batterLugs[2] = 2.0 * c.lugCents * std::log (2.0) / 1200.0;
        std::vector<std::vector<Partial>> heard;

        for (int lug = 0; lug < 4; ++lug)
        {
            tap.angle = units::twoPi * lug / drum.lugs;
            const auto recording = synthetic::record (tap, { .signalToNoise = c.signalToNoise,
                                                             .roomShare = c.roomShare,
                                                             .seed = static_cast<unsigned> (lug + 1) });
            const auto taps = listening::findTaps (recording);
            REQUIRE (! taps.empty());
            heard.push_back (listening::partialsOf (recording, taps.front(), listening::quietestMoment (recording)));
        }

        const auto note = listening::sharedNote (commonLines (heard));
        // Uneven lugs can split the pattern above the note; the note is the right one all the same.
        const bool isKnown = note.kind == listening::SharedNote::Kind::tapNote;
        CHECK ((isKnown || (c.lugCents != 0.0 && note.kind == listening::SharedNote::Kind::lowest)));
        CHECK (std::abs (centsBetween (tapNote, note.frequency)) < 10.0);
    }
}

TEST_CASE ("Where the ring of two notes does not tell which is the tap note, both are named")
{
    // Lines made for this: a lower note, a (1,1) and the (2,1) above it.
    const auto linesWith = [] (double ringOfLower)
    {
        const auto line = [] (double frequency, double decay) {
            return Line{ .frequency = frequency, .error = 0.01, .decay = decay, .decayError = 0.1, .loudness = 0.9, .strikes = 4 };
        };
        return std::vector<Line>{ line (196.0, 7.0 / ringOfLower), line (220.0, 7.0), line (310.5, 8.3) };
    };
    using Kind = listening::SharedNote::Kind;
    CHECK (listening::sharedNote (linesWith (0.3)).kind == Kind::tapNote);
    CHECK (listening::sharedNote (linesWith (0.3)).frequency == 220.0);
    CHECK (listening::sharedNote (linesWith (0.9)).kind == Kind::lowest);
    CHECK (listening::sharedNote (linesWith (0.9)).frequency == 196.0);

    const auto either = listening::sharedNote (linesWith (0.62));
    CHECK (either.kind == Kind::either);
    CHECK (either.frequency == 220.0);
    CHECK (either.other == 196.0);

    auto withoutPartner = linesWith (0.3);
    withoutPartner.pop_back();
    CHECK (listening::sharedNote (withoutPartner).kind == Kind::unknown);
    CHECK (listening::sharedNote ({}).kind == Kind::none);
}

TEST_CASE ("Wires, double hits and noise are recognised")
{
    DrumSpec drum;
    synthetic::Strike strike{ .drum = drum, .tensions = { 3000.0, 2000.0 } };
    strike.wires.on = strike.isHeardFromBelow = true;
    const auto wiresOn = listening::findTaps (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    REQUIRE (! wiresOn.empty());
    CHECK (wiresOn[0].has (listening::Trouble::wiresOn));

    strike.wires.on = strike.isHeardFromBelow = false;
    const auto wiresOff = listening::findTaps (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    REQUIRE (! wiresOff.empty());
    CHECK_FALSE (wiresOff[0].has (listening::Trouble::wiresOn));
    CHECK_FALSE (wiresOff[0].isUnusable());

    strike.count = 2;
    strike.between = 0.09;
    const auto twice = listening::findTaps (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    REQUIRE (! twice.empty());
    CHECK (twice[0].has (listening::Trouble::doubleHit));

    // Nothing but noise: no tap.
    CHECK (listening::findTaps (sines ({}, 0.01)).empty());
    CHECK_THROWS_AS (listening::findTaps ({ 48000.0, std::vector<double> (48000, 0.0) }), InputError);
}

TEST_CASE ("A voice, a cymbal, a kick drum and noise are told from a drum")
{
    using listening::Nature;
    const auto natureOf = [] (const listening::Recording& recording)
    {
        const auto taps = listening::findTaps (recording);
        std::vector<std::vector<Partial>> partials;

        for (const auto& tap : taps)
            partials.push_back (
                listening::partialsOf (recording, tap, listening::quietestMoment (recording), { .highest = 700.0, .longest = 0.5 }));

        return listening::natureOf (recording, taps, partials);
    };
    const auto recorded = [] (const std::vector<synthetic::KnownMode>& modes)
    { return synthetic::recordingOf (modes, { .click = 0.1 }, 1); };

    CHECK (natureOf (synthetic::recordingOf (synthetic::recordedSnare(), { .click = 0.5, .wires = 0.3 }, 1)) == Nature::drum);
    CHECK (natureOf (sines ({}, 0.01)) == Nature::noStroke);

    // Harmonics of 110 Hz, as strings and voices have them.
    std::vector<synthetic::KnownMode> voice, cymbal;

    for (int k = 1; k <= 9; ++k)
        voice.push_back ({ 110.0 * k, 1.0, 0.2 / k, 110.0 * k, 0.7 * k });

    CHECK (natureOf (recorded (voice)) == Nature::harmonics);

    // Dense partials from 300 Hz to 10 kHz that ring for seconds, most of them high.
    for (int k = 0; k < 60; ++k)
        cymbal.push_back ({ 300.0 * std::pow (1.06, k), 2.5, 0.005 + 0.001 * k, 300.0 * std::pow (1.06, k), 1.3 * k });

    CHECK (natureOf (recorded (cymbal)) == Nature::cymbal);

    // A kick drum: 55 Hz with a glide, and a little at 110 and 150 Hz.
    CHECK (natureOf (recorded ({ { 55.0, 0.5, 0.6, 70.0 }, { 110.0, 0.3, 0.05, 115.0 }, { 150.0, 0.2, 0.05, 155.0 } })) == Nature::kick);
}
