#include "tests/Catch.h"

#include "Trial.h"

#include "Fitting/Drum.h"
#include "Fitting/drum/Model.h"
#include "Listening/Strikes.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

using namespace fitting;
using namespace modal;

namespace
{
/** What is heard of a drum of 14 x 5.5 in struck in three places, two of them heard from below unless the bottom is closed. */
std::vector<Line> threeStrikes (const Tensions& tensions, double speed = 1.0,
                                const synthetic::Surroundings& surroundings = { .signalToNoise = 30.0, .seed = 5 },
                                Bottom bottom = Bottom::head)
{
    std::vector<listening::Strike> all;

    for (const double position : { 0.1, 0.45, 0.75 })
    {
        synthetic::Strike strike;
        strike.drum.bottom = bottom;
        strike.tensions = tensions;
        strike.wires.on = false;
        strike.position = position;
        strike.speed = speed;
        strike.isHeardFromBelow = position > 0.3 && bottom == Bottom::head;
        const auto recording = std::make_shared<const listening::Recording> (synthetic::record (strike, surroundings));
        const auto quiet = listening::quietestMoment (*recording);

        for (const auto& tap : listening::findTaps (*recording))
            if (tap.canBeStrike())
                all.push_back ({ recording, tap, quiet });
    }

    REQUIRE (all.size() == 3);
    return listening::linesOf (all);
}
} // namespace

TEST_CASE ("Derivatives of the coupled modes agree with finite differences")
{
    DrumSpec drum;
    DrumModel model (drum, 600.0, 4);
    const auto here = model.modesAt (3000.0, 2000.0);
    constexpr double step = 2.0e-4;
    const auto batter = model.modesAt (3000.0 * std::exp (step), 2000.0);
    const auto resonant = model.modesAt (3000.0, 2000.0 * std::exp (step));
    REQUIRE (here.size() > 6);
    REQUIRE (batter.size() == here.size());
    REQUIRE (resonant.size() == here.size());

    int compared = 0;

    for (std::size_t i = 0; i < here.size(); ++i)
    {
        if (here[i].mode.decay.radiation > 20.0)
            continue; // radiation lowers these, which the derivative leaves out

        ++compared;

        const auto slope = [&] (const std::vector<ExpectedMode>& moved)
        { return std::log (moved[i].mode.frequency / here[i].mode.frequency) / step; };
        // The air's load follows the frequency, which the derivative holds still: a few per cent.
        CHECK (here[i].gradient[0] == Approx (slope (batter)).epsilon (0.06).margin (0.006));
        CHECK (here[i].gradient[1] == Approx (slope (resonant)).epsilon (0.06).margin (0.006));
    }

    CHECK (compared > 4);
}

TEST_CASE ("Random drums struck at 20 dB: both tensions to 2 %")
{
    // accuracy-benchmark has the statistics of 225 drums: 90 and 84 %.
    int batter = 0, resonant = 0, within = 0;
    constexpr int drums = 4;

    for (unsigned seed = 1; seed <= drums; ++seed)
    {
        const auto outcome = synthetic::StrikesTrial (seed).at (20.0);
        CAPTURE (seed);
        REQUIRE (outcome.isPossible);
        batter += std::abs (outcome.tensionShare[0]) < 0.02 ? 1 : 0;
        resonant += std::abs (outcome.tensionShare[1]) < 0.02 ? 1 : 0;
        within += std::max (std::abs (outcome.pull[0]), std::abs (outcome.pull[1])) < 3.0 ? 1 : 0;
    }

    CHECK (batter == drums);
    CHECK (resonant >= drums - 1);
    CHECK (within == drums);
}

TEST_CASE ("A hard strike is read after its glide")
{
    // The rise of tension itself is checked against Duffing's oscillator in the engine's tests.
    const Tensions tensions{ 3000.0, 2000.0 };
    const synthetic::Surroundings quiet{ .signalToNoise = 40.0, .roomShare = 1.0e-4 };
    const auto soft = threeStrikes (tensions, 0.5, quiet), strong = threeStrikes (tensions, 3.5, quiet); // at 6 m/s a line reads up to 3 cents sharp
    const double modelError = synthetic::playedError;
    int compared = 0;

    for (const auto& line : soft)
        if (line.loudness > 0.3)
        {
            const auto same =
                std::min_element (strong.begin(), strong.end(),
                                  [&] (const Line& a, const Line& b)
                                  { return std::abs (a.frequency - line.frequency) < std::abs (b.frequency - line.frequency); });
            REQUIRE (same != strong.end());
            CHECK (std::abs (centsBetween (line.frequency, same->frequency)) < modelError);
            ++compared;
        }

    CHECK (compared >= 2);
}

TEST_CASE ("Strikes that cannot be fitted are refused with a reason")
{
    const Tensions tensions{ 3000.0, 2000.0 };
    const auto lines = threeStrikes (tensions);
    DrumFitSetup setup{ .drum = {}, .modelError = synthetic::playedError, .decayError = synthetic::playedDecayError };
    const auto right = fitDrum (setup, lines, 3);
    REQUIRE (right.isPossible);
    CHECK (right.batter.tension.value == Approx (tensions.batter).epsilon (0.02));
    CHECK (right.resonant.tension.value == Approx (tensions.resonant).epsilon (0.03));
    CHECK (right.batter.lugCents.empty());
    CHECK (contains (right.findings, Finding::Kind::lugsNotLocated));

    // The same notes on a drum two inches smaller, and six: refused, or answered with a warning.
    for (const double inches : { 12.0, 8.0 })
    {
        setup.drum.diameter = inches * units::inch;
        const auto wrong = fitDrum (setup, lines, 3);
        CHECK ((contains (wrong.findings, Finding::Severity::refusal) || contains (wrong.findings, Finding::Severity::warning)));
    }

    // Two notes are left.
    auto poor = lines;
    std::sort (poor.begin(), poor.end(), [] (const Line& x, const Line& y) { return x.loudness > y.loudness; });
    poor.resize (2);
    std::sort (poor.begin(), poor.end(), [] (const Line& x, const Line& y) { return x.frequency < y.frequency; });
    const auto little = fitDrum ({}, poor, 1);
    CHECK_FALSE (little.isPossible);
    CHECK (contains (little.findings, Finding::Kind::tooFewNotes));
    CHECK_FALSE (fitDrum ({}, {}, 0).isPossible);

    setup.drum = {};
    setup.drum.bottom = Bottom::closed;
    CHECK_THROWS_AS (fitDrum (setup, lines, 3), InputError);
    setup.drum = {};
    setup.drum.muffling.emplace_back();
    CHECK_THROWS_AS (fitDrum (setup, lines, 3), InputError);
    setup.drum = {};
    setup.massTolerance = 0.5;
    CHECK_THROWS_AS (fitDrum (setup, lines, 3), InputError);
}

TEST_CASE ("Strikes of a drum whose resonant head is held still say nothing about that head")
{
    constexpr double tension = 3000.0;
    const auto lines = threeStrikes ({ tension, 0.0 }, 1.0, { .signalToNoise = 30.0, .seed = 5 }, Bottom::closed);
    const auto fit = fitDrum ({ .drum = {}, .modelError = synthetic::playedError, .decayError = synthetic::playedDecayError }, lines, 3);
    REQUIRE (fit.isPossible);
    CHECK (fit.batter.isPossible);
    CHECK (std::abs (fit.batter.tension.value - tension) < 2.5 * fit.batter.tension.error);
    CHECK_FALSE (fit.resonant.isPossible);
    CHECK (contains (fit.resonant.findings, Finding::Kind::resonantHeldStill));
}

TEST_CASE ("Strikes recorded at different sample rates are refused")
{
    std::vector<listening::Strike> strikes;

    for (const double rate : { 48000.0, 22050.0 })
    {
        listening::Recording silence{ rate, std::vector<double> (static_cast<std::size_t> (rate)) };
        strikes.push_back ({ std::make_shared<const listening::Recording> (std::move (silence)), { .end = 1.0 }, 0.0 });
    }

    std::string message;

    try
    {
        listening::linesOf (strikes);
    }
    catch (const InputError& error)
    {
        message = error.what();
    }

    INFO (message);
    CHECK (message.find ("sample rate") != std::string::npos);
    CHECK (message.find ("48000 and 22050 Hz") != std::string::npos);
}

TEST_CASE ("Wires that are on are recognised from below at 30 dB; thrown off they are not")
{
    for (const bool isOn : { true, false })
        for (unsigned seed = 1; seed <= 3; ++seed)
        {
            synthetic::Strike strike;
            strike.tensions = { 2500.0 + 300.0 * seed, 2000.0 };
            strike.wires.on = isOn;
            strike.position = 0.25 * seed;
            strike.isHeardFromBelow = true; // where the wires are
            const auto taps = listening::findTaps (synthetic::record (strike, { .signalToNoise = 30.0, .seed = seed }));
            REQUIRE_FALSE (taps.empty());
            CHECK (taps.front().has (listening::Trouble::wiresOn) == isOn);
        }
}

TEST_CASE ("Strikes show how uneven a head's lugs are, or how uneven at most")
{
    const auto wavesOf = [] (unsigned seed, double lugCents) { return synthetic::StrikesTrial (seed, lugCents).at (30.0).waves; };
    int told = 0, within = 0, seen = 0;

    for (const unsigned seed : { 501u, 502u, 503u })
    {
        for (const auto& wave : wavesOf (seed, 40.0))
        {
            ++told;
            within += wave.isWithin() ? 1 : 0;
            seen += wave.found.value > 2.0 * wave.found.error ? 1 : 0;
        }
    }

    // Measured: 6 of 6 within two errors, 4 seen.
    CHECK (told >= 5);
    CHECK (within >= told - 1);
    CHECK (seen >= 1);

    const auto even = wavesOf (501, 0.0);
    REQUIRE_FALSE (even.empty());

    for (const auto& wave : even)
        CHECK (wave.isWithin());
}
