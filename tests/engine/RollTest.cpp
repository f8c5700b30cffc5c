#include "TestDrum.h"

#include "Score/Performance.h"
#include "Score/Roll.h"

#include "Modal/InputError.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

/** Sound of a roll on the test drum, 48 kHz. */
std::vector<float> played (const score::Roll& roll)
{
    auto setup = testdrum::snare (1000.0);
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    score::Performance performance (std::make_shared<engine::DrumModel> (setup), score::strokesOf (roll));
    std::vector<float> sound (static_cast<std::size_t> ((roll.start + roll.length) * setup.sampleRate));
    for (std::size_t at = 0; at < sound.size(); at += 480)
    {
        float* output = sound.data() + at;
        performance.process (&output, static_cast<int> (std::min<std::size_t> (480, sound.size() - at)));
    }
    return sound;
}

double power (const std::vector<float>& sound, double from, double to)
{
    double sum = 0.0;
    for (auto i = static_cast<std::size_t> (from * 48000.0); i < static_cast<std::size_t> (to * 48000.0); ++i)
        sum += static_cast<double> (sound[i]) * static_cast<double> (sound[i]);
    return sum / (to - from);
}

} // namespace

TEST_CASE ("a roll has its hands in turn, evenly, within its length, louder by equal ratios")
{
    score::Roll roll;
    roll.kind = score::Roll::Kind::singles;
    roll.start = 0.5;
    roll.length = 1.5;
    roll.handsPerSecond = 8.0;
    roll.firstSpeed = 0.5;
    roll.lastSpeed = 4.0;
    const auto strokes = score::strokesOf (roll);
    REQUIRE (strokes.size() == 12);
    const double ratio = std::pow (8.0, 1.0 / 11.0);
    for (std::size_t i = 0; i < strokes.size(); ++i)
    {
        CHECK (std::abs (strokes[i].time - (0.5 + 0.125 * static_cast<double> (i))) < 1.0e-12);
        CHECK (strokes[i].time < roll.start + roll.length);
        CHECK (std::abs (strokes[i].stroke.speed - 0.5 * std::pow (ratio, static_cast<double> (i))) < 1.0e-9);
        if (i >= 2)
        {
            CHECK (strokes[i].stroke.angle == strokes[i - 2].stroke.angle);
            CHECK (strokes[i].stroke.angle != strokes[i - 1].stroke.angle);
        }
    }
}

TEST_CASE ("an open roll sounds twice a hand, a closed one keeps bouncing")
{
    score::Roll open;
    open.kind = score::Roll::Kind::doubles;
    open.handsPerSecond = 8.0;
    for (const auto& timed : score::strokesOf (open))
    {
        const auto blows = engine::blowsOf (timed.stroke, modal::StickSpec{}, 0.1778);
        REQUIRE (blows.count == 2);
        CHECK (std::abs (blows.blow[1].delay - 1.0 / 16.0) < 1.0e-12);
        CHECK (blows.blow[1].speed == blows.blow[0].speed);
    }
    auto closed = open;
    closed.kind = score::Roll::Kind::buzzes;
    for (const auto& timed : score::strokesOf (closed))
    {
        const auto blows = engine::blowsOf (timed.stroke, modal::StickSpec{}, 0.1778);
        REQUIRE (blows.count == 1);
        CHECK (blows.blow[0].hand > 0.0);
        CHECK (std::abs (blows.blow[0].holdTime - 1.0 / 8.0) < 1.0e-12);
    }
}

TEST_CASE ("a roll on a drum stays up between its hands and swells when it is asked to")
{
    for (const auto kind : { score::Roll::Kind::doubles, score::Roll::Kind::buzzes })
    {
        score::Roll roll;
        roll.kind = kind;
        roll.length = 1.2;
        roll.handsPerSecond = 12.0;
        roll.firstSpeed = 0.6;
        roll.lastSpeed = 4.0;
        const auto sound = played (roll);
        for (const float sample : sound)
            REQUIRE (std::isfinite (sample));
        // Six times the energy a stroke or so, half of it at the least: the hands' pressure in a closed roll does not grow.
        CHECK (power (sound, 0.9, 1.2) > 3.0 * power (sound, 0.0, 0.3));
        // No gap: the quietest hundredth of a second of the last third against its mean.
        double least = 1.0e9;
        for (double t = 0.8; t < 1.19; t += 0.01)
            least = std::min (least, power (sound, t, t + 0.01));
        CHECK (least > 0.01 * power (sound, 0.8, 1.2));
    }
}

TEST_CASE ("a roll out of range is refused by name")
{
    score::Roll roll;
    roll.handsPerSecond = 100.0;
    CHECK_THROWS_AS (score::strokesOf (roll), modal::InputError);
    roll = {};
    roll.length = 0.0;
    CHECK_THROWS_AS (score::strokesOf (roll), modal::InputError);
    roll = {};
    roll.lastSpeed = std::nan ("");
    CHECK_THROWS_AS (score::strokesOf (roll), modal::InputError);
}
