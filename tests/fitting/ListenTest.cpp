#include "tests/Catch.h"

#include "SyntheticDrum.h"

#include "Fitting/Lines.h"
#include "Listening/Partials.h"
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
