#include "tests/Catch.h"

#include "Plugin/PatternBook.h"
#include "Plugin/PatternPlayer.h"

#include "Modal/InputError.h"

#include <random>

using namespace plugin;

TEST_CASE ("The bundled patterns can be read and have strokes")
{
    CHECK (patternBook().size() >= 10);
    for (const auto& pattern : patternBook())
    {
        CAPTURE (pattern.name);
        CHECK_FALSE (pattern.strokes.empty());
        CHECK (pattern.beats > 0.0);
        CHECK (pattern.strokes.back().time < pattern.beats);
    }
}

TEST_CASE ("A backbeat falls on two and four")
{
    const auto pattern = readPattern (R"({ "format": "snarewright-pattern", "version": 1, "name": "Test", "steps_per_beat": 2,
                                           "text": ".. o. .. o." })",
                                      "test");
    CHECK (pattern.beats == Approx (4.0));
    REQUIRE (pattern.strokes.size() == 2);
    CHECK (pattern.strokes[0].time == Approx (1.0));
    CHECK (pattern.strokes[1].time == Approx (3.0));
}

TEST_CASE ("Strokes fall on the same samples in any block size")
{
    const auto& pattern = patternBook()[1];
    const double samplesPerBeat = 48000.0 * 60.0 / 117.3;
    const int length = 400000;

    const auto strokesIn = [&] (auto&& nextBlock)
    {
        std::vector<int> samples;
        for (int done = 0; done < length;)
        {
            const int frames = std::min (nextBlock(), length - done);
            playPattern (pattern, { done / samplesPerBeat, samplesPerBeat }, frames,
                         [&] (int sample, const auto&) { samples.push_back (done + sample); });
            done += frames;
        }
        return samples;
    };

    const auto whole = strokesIn ([] { return 8192; });
    std::mt19937 random (2);
    CHECK (whole.size() > 30);
    CHECK (std::is_sorted (whole.begin(), whole.end()));
    CHECK (strokesIn ([&] { return std::uniform_int_distribution (1, 2000) (random); }) == whole);
    CHECK (strokesIn ([] { return 1; }) == whole);

    // Against the plain sum: every stroke of every repetition, rounded to its sample.
    std::vector<int> expected;
    for (int loop = 0; loop * pattern.beats * samplesPerBeat < length; ++loop)
        for (const auto& stroke : pattern.strokes)
            if (const auto sample = std::lround ((loop * pattern.beats + stroke.time) * samplesPerBeat); sample < length)
                expected.push_back (static_cast<int> (sample));
    CHECK (whole == expected);
}

TEST_CASE ("A wrong pattern is refused with a reason")
{
    for (const char* text :
         { "", "{}", R"({ "format": "snarewright-pattern", "version": 2 })",
           R"({ "format": "snarewright-pattern", "version": 1, "name": "x", "steps_per_beat": 4, "text": "q" })",
           R"({ "format": "snarewright-pattern", "version": 1, "name": "x", "steps_per_beat": 0, "text": "o" })",
           R"({ "format": "snarewright-pattern", "version": 1, "name": "x", "steps_per_beat": 4, "text": "...." })" })
    {
        CAPTURE (text);
        CHECK_THROWS_AS (readPattern (text, "test"), modal::InputError);
    }
}
