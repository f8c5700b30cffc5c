#include "tests/Catch.h"

#include "Engine/PlayedResponse.h"
#include "Modal/Tuning.h"

#include <iomanip>
#include <sstream>

namespace
{

/** Modes and played response of a 14 inch drum tuned by its tap notes. */
struct TunedDrum
{
    modal::DrumModes modes;
    engine::PlayedResponse played;

    double sustainOfDrumNote() const
    {
        for (const auto& mode : modes.modes)
            if (! mode.isAirMode)
                return mode.decay.t60();

        return 0.0;
    }
};

modal::Tuning tuningOf (double batterNote, double semitones)
{
    const modal::Interval interval{ semitones };
    return {
        .name = {}, .target = modal::ByTapNotes{ batterNote, batterNote * interval.ratio() }, .lugs = {}, .concertPitch = {}
    };
}

engine::DrumSetup tunedSetup (double batterNote, double semitones)
{
    const modal::DrumSpec drum;
    engine::DrumSetup setup;
    setup.tensions = modal::tensionsFor (drum, tuningOf (batterNote, semitones));
    setup.modes = modal::solve (drum, setup.tensions, { .highestFrequency = 2500.0 });
    setup.microphones = engine::defaultMicrophones (drum.depth);
    return setup;
}

TunedDrum tuned (double batterNote, double semitones, bool wires = true)
{
    auto setup = tunedSetup (batterNote, semitones);
    setup.wires.on = wires;
    return { setup.modes, engine::playedResponse (setup) };
}

std::string curve (const TunedDrum& drum)
{
    std::ostringstream line;
    line << std::fixed << std::setprecision (2) << "drum note " << std::setw (6) << modal::drumNote (drum.modes) << " Hz, rings "
         << drum.sustainOfDrumNote() << " s, attack " << std::setprecision (0) << drum.played.brightness << " Hz, wires "
         << 1000.0 * drum.played.snareSound
         << " ms; softest stroke that lifts them, middle to edge, m/s:" << std::setprecision (2);

    for (const auto& point : drum.played.wireResponse)
        line << ' ' << point.softestSpeed;

    return line.str();
}

} // namespace

TEST_CASE ("Raising the resonant head raises the drum note and shortens the wires (common practice, no source)",
           "[engine][trade]")
{
    const auto semitone = tuned (233.1, 1.0), third = tuned (233.1, 4.0), fourth = tuned (233.1, 5.0), fifth = tuned (233.1, 7.0);
    WARN ("batter A#3, resonant head raised\n  m2: " << curve (semitone) << "\n  M3: " << curve (third)
                                                     << "\n  P4: " << curve (fourth) << "\n  P5: " << curve (fifth));

    CHECK (modal::drumNote (fifth.modes) > modal::drumNote (semitone.modes));
    CHECK (fifth.played.snareSound < semitone.played.snareSound);
}

TEST_CASE ("A lower batter head is fuller (common practice, no source)", "[engine][trade]")
{
    const auto high = tuned (293.7, 5.0), low = tuned (220.0, 5.0);
    WARN ("a fourth, batter D4 and A3\n  D4: " << curve (high) << "\n  A3: " << curve (low));

    CHECK (modal::drumNote (low.modes) < modal::drumNote (high.modes));
    CHECK (tuned (220.0, 5.0, false).played.brightness < tuned (293.7, 5.0, false).played.brightness);
    CHECK (low.sustainOfDrumNote() > high.sustainOfDrumNote());
}

TEST_CASE ("At the same tap notes a second ply or a coating makes the attack darker (common practice, no source)",
           "[engine][trade]")
{
    const auto brightness = [] (const modal::HeadConstruction& batter)
    {
        modal::DrumSpec drum;
        drum.batter = batter;
        const auto tensions = modal::tensionsFor (drum, tuningOf (233.1, 5.0));
        auto setup = engine::setUp (drum, tensions, modal::solve (drum, tensions, { .highestFrequency = 2500.0 }), {});
        setup.wires.on = false;
        setup.microphones = engine::defaultMicrophones (drum.depth);
        return engine::playedResponse (setup).brightness;
    };
    const double single = brightness ({}), coated = brightness ({ .coatingDensity = 0.06 }),
                 twoPlies = brightness ({ .plyThickness = 178.0e-6, .plies = 2 });
    CAPTURE (single, coated, twoPlies);
    CHECK (coated < 0.995 * single);
    CHECK (twoPlies < 0.97 * single);
}

TEST_CASE ("Wires respond to softer strokes in the centre than at the edge (common practice, no source)", "[engine][trade]")
{
    const auto drum = tuned (233.1, 5.0);
    REQUIRE (drum.played.wireResponse.size() >= 2);
    CHECK (drum.played.wireResponse.front().softestSpeed < drum.played.wireResponse.back().softestSpeed);
}

TEST_CASE ("The tighter the strainer, the harder the stroke that lifts the wires", "[engine][trade]")
{
    // As Rossing, Bork, Zhao and Fystrom found on a drum (Acoustics of snare drums, J. Acoust. Soc. Am. 92, 1992; from memory):
    // the amplitude at which the wires leave the head grows with their tension.
    double former = 0.0;
    for (const double pull : { 4.0, 6.0, 9.0, 14.0 })
    {
        auto setup = tunedSetup (233.1, 5.0);
        setup.wires.strandTension = pull;
        const double softest = engine::playedResponse (setup).wireResponse.front().softestSpeed;
        CAPTURE (pull);
        CHECK (softest > former);
        former = softest;
    }
}
