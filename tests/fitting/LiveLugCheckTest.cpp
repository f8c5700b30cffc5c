// A lug check analysed while it is made, as the plugin does with its input.
#include "tests/Catch.h"

#include "SyntheticDrum.h"

#include "Listening/LiveLugCheck.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace fitting;
using namespace modal;

namespace
{
DrumSpec eightLugs()
{
    DrumSpec drum;
    drum.lugs = 8;
    return drum;
}

constexpr double tension = 3000.0; // N/m

double trueNote()
{
    return tapNote (eightLugs(), HeadSide::batter, tension);
}

/** Feeds a recording in pieces of a size, and a second of its last noise so that the last tap rings out. */
void feed (listening::LiveLugCheck& check, const listening::Recording& recording, std::size_t piece)
{
    std::vector<float> samples (recording.samples.begin(), recording.samples.end());

    for (std::size_t done = 0; done < samples.size(); done += piece)
        check.add (samples.data() + done, std::min (piece, samples.size() - done));
}

bool has (const listening::LiveLugCheck& check, listening::Trouble trouble)
{
    const auto& troubles = check.remark().troubles;
    return std::find (troubles.begin(), troubles.end(), trouble) != troubles.end();
}

listening::Recording twoTaps (double between, bool wiresOn)
{
    synthetic::Strike strike{ .drum = eightLugs(), .tensions = { tension, 2000.0 } };
    strike.count = 2;
    strike.between = between;
    strike.wires.on = strike.isHeardFromBelow = wiresOn; // from above the drum itself hides them
    return synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 });
}
/** Harmonics of a pitch in Hz that fade together, plucked every 1.2 s, over faint noise. */
listening::Recording pluckedString (double pitch, int count)
{
    constexpr double rate = 48000.0, between = 1.2;
    listening::Recording recording{ rate, std::vector<double> (static_cast<std::size_t> ((count + 0.3) * between * rate)) };
    std::mt19937 random (3);
    std::normal_distribution<double> noise (0.0, 1.0e-4);

    for (std::size_t i = 0; i < recording.samples.size(); ++i)
    {
        const double since = static_cast<double> (i) / rate - 0.3;
        const double t = since - between * std::floor (since / between);
        recording.samples[i] = noise (random);

        for (int k = 1; since > 0.0 && k <= 8; ++k)
            recording.samples[i] += 0.3 / k * std::exp (-6.0 * t) * std::sin (units::twoPi * k * pitch * t);
    }

    return recording;
}
} // namespace

TEST_CASE ("A lug check is heard tap by tap, however the sound is cut into pieces")
{
    const auto drum = eightLugs();
    // One lug lowered: the modes beat, which is no tap.
    const double semitone = semitoneTension (drum, HeadSide::batter, tension);
    const double share = std::pow (1.0 + semitone, -0.2) - 1.0;
    synthetic::LugCheck tapped{ .drum = drum, .tension = tension, .between = 1.1 };
    tapped.lugs.assign (8, -share / 8.0);
    tapped.lugs[5] += share;
    const auto recording = synthetic::record (tapped, { .signalToNoise = 30.0 });

    listening::LiveLugCheck check ({ .drum = drum }, recording.sampleRate), other ({ .drum = drum }, recording.sampleRate);
    feed (check, recording, 480);
    feed (other, recording, 7777);
    REQUIRE (check.heardCount() == 8);
    CHECK (check.nextLug() == -1);
    REQUIRE (other.heardCount() == 8);

    for (std::size_t lug = 0; lug < 8; ++lug)
    {
        // A single tap on a head that is 20 cents off at one lug is within what neighbouring modes are drawn apart.
        CHECK (std::abs (centsBetween (trueNote(), check.lugs()[lug]->tapNote.value)) < 5.0);
        CHECK (check.lugs()[lug]->tapNote.value == other.lugs()[lug]->tapNote.value);
    }

    const auto fit = check.fit();
    REQUIRE (fit.isPossible);
    CHECK (std::abs (centsBetween (trueNote(), fit.tapNote.value)) < 3.0);
    CHECK (fit.tension.value == Approx (tension).epsilon (0.02));

    // The last one again.
    REQUIRE (check.deleteLastTap());
    CHECK (check.nextLug() == 7);
    CHECK (check.heardCount() == 7);
    check.chooseLug (2);
    CHECK (check.nextLug() == 2);
}

TEST_CASE ("A tap that cannot be used is refused with the reason")
{
    const HeadFitSetup setup{ .drum = eightLugs() };

    listening::LiveLugCheck twice (setup, 48000.0);
    feed (twice, twoTaps (0.09, false), 480);
    CHECK (twice.heardCount() == 0);
    CHECK (twice.remark().isRefusal());
    CHECK (has (twice, listening::Trouble::doubleHit));

    listening::LiveLugCheck rattling (setup, 48000.0);
    feed (rattling, twoTaps (1.2, true), 480);
    CHECK (rattling.heardCount() == 0);
    CHECK (has (rattling, listening::Trouble::wiresOn));

    // A plucked string.
    const auto string = pluckedString (165.0, 4);
    listening::LiveLugCheck stranger (setup, string.sampleRate);
    feed (stranger, string, 480);
    CHECK (stranger.heardCount() == 0);
    CHECK (stranger.remark().kind == listening::LiveLugCheck::Remark::Kind::noFit);

    // In so much noise a tap is seen but nothing can be read.
    const auto loud = synthetic::record (synthetic::LugCheck{ .drum = eightLugs(), .tension = tension, .between = 1.2 },
                                         { .signalToNoise = 7.0 });
    listening::LiveLugCheck noisy (setup, loud.sampleRate);
    feed (noisy, loud, 480);
    CHECK (noisy.heardCount() == 0);
    CHECK (noisy.remark().isRefusal());

    listening::LiveLugCheck silent (setup, 48000.0);
    const std::vector<float> nothing (48000, 0.0f);
    silent.add (nothing.data(), nothing.size());
    CHECK (silent.isSilent());
    CHECK (silent.remark().kind == listening::LiveLugCheck::Remark::Kind::none);
    CHECK_FALSE (silent.deleteLastTap());

    CHECK_THROWS_AS (listening::LiveLugCheck (setup, 1000.0), InputError);
}
