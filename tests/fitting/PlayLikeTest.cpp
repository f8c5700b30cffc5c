#include "tests/Catch.h"

#include "SyntheticDrum.h"

#include "PlayLike/PlayLike.h"
#include "PlayLike/SideBySide.h"
#include "Score/Loudness.h"

#include <cmath>

using namespace modal;

namespace
{

constexpr Tensions tensions{ 3000.0, 2000.0 };

/** What the usual gel is told to be of a drum that was muffled with it, played by the engine in a room. */
playlike::Likeness likenessOf (double gel, bool wiresOn, double strandTension, double pressDepth, double roomShare)
{
    synthetic::Strike strike;
    strike.tensions = tensions;
    strike.position = 0.35; // not where the model is struck
    strike.speed = 2.5;
    strike.wires.on = wiresOn;
    strike.wires.strandTension = strandTension;
    strike.wires.pressDepth = pressDepth;
    playlike::KnownDrum known{ strike.drum, tensions, {} };

    if (gel > 0.0)
    {
        MufflingItem item;
        item.size *= std::sqrt (gel / item.mass);
        item.mass = gel;
        strike.drum.muffling.push_back (item);
    }

    const auto recording = synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = roomShare });
    const auto taps = listening::findTaps (recording);
    REQUIRE (! taps.empty());
    return playlike::likenessOf (known, recording, taps.front(), listening::quietestMoment (recording));
}

} // namespace

TEST_CASE ("Gel on a drum is told from how it fades, in a room too")
{
    struct Case
    {
        double gel, roomShare;
    };

    for (const auto& [gel, roomShare] : { Case{ 0.0, 0.1 }, Case{ 8.0e-3, 0.0 } })
    {
        const auto likeness = likenessOf (gel, false, 1.0, 0.1e-3, roomShare);
        CAPTURE (roomShare, gel, likeness.gel.value, likeness.gel.low, likeness.gel.high);
        CHECK_FALSE (likeness.hasWires);
        CHECK_FALSE (likeness.fittings.wires.on);
        CHECK_FALSE (likeness.strandTension.isMeasured);
        CHECK (likeness.gel.low <= gel);
        CHECK (likeness.gel.high >= gel);
        CHECK (likeness.gel.isMeasured);
        CHECK (likeness.drum.muffling.size() <= 1);
    }
}

TEST_CASE ("Wires that are heard are put on, and what is told of the strainer is not wrong")
{
    constexpr double tension = 5.0; // N
    const auto likeness = likenessOf (0.0, true, tension, 0.28e-3, 0.05);
    CAPTURE (likeness.strandTension.value, likeness.strandTension.low, likeness.strandTension.high);
    CHECK (likeness.hasWires);
    CHECK (likeness.fittings.wires.on);
    CHECK (likeness.strandTension.low <= tension);
    CHECK (likeness.strandTension.high >= tension);
    CHECK (likeness.gel.low == Approx (0.0).margin (1.0e-3));
}

TEST_CASE ("Loose wires are told from tight ones by how long they rattle")
{
    constexpr double tension = 0.65, tight = 5.0; // N
    const auto likeness = likenessOf (0.0, true, tension, -0.08e-3, 0.05);
    CAPTURE (likeness.strandTension.value, likeness.strandTension.low, likeness.strandTension.high);
    CHECK (likeness.hasWires);
    CHECK (likeness.strandTension.isMeasured);
    CHECK (likeness.strandTension.low <= tension);
    CHECK (likeness.strandTension.high < tight);
}

TEST_CASE ("Recording and model one after the other are equally loud")
{
    // ITU-R BS.1770 itself is checked in tests/score.
    listening::Recording recording{ 16000.0, std::vector<double> (16000) }, model{ 32000.0, std::vector<double> (32000) };

    for (std::size_t i = 0; i < recording.samples.size(); ++i)
        recording.samples[i] = 0.01 * std::sin (0.3 * static_cast<double> (i));

    for (std::size_t i = 0; i < model.samples.size(); ++i)
        model.samples[i] = 5.0 * std::sin (0.02 * static_cast<double> (i));

    const auto both = playlike::sideBySide (recording, 0.0, 1.0, model);
    const std::vector<float> first (both.samples.begin(), both.samples.begin() + 32000),
        second (both.samples.end() - 32000, both.samples.end());
    CHECK (both.sampleRate == 32000.0);
    CHECK (both.seconds() == Approx (2.7));
    CHECK (score::loudness (first, 32000.0) == Approx (score::loudness (second, 32000.0)).margin (0.2));
}
