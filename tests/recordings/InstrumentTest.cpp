// The instrument against what three recorded snare drums show (close or overhead microphones, unknown rooms and treatment;
// medians of 2 to 5 strokes each). Three drums are few: decay times may miss their range by 15 %, levels by 3 dB.
//
// Of one of them the partials are known, with the wires off, and so how tight its heads were: octave levels, what the wires add
// and rimshots are held on a drum tuned like it, since they change by 7 dB from a low tuning to a high one. Decays with the wires
// on, which are those of drums of unknown tuning, are held in the presets' middle tuning.
//
// Not reached, and why: README.md beside this file.

#include "Instrument.h"

#include "Files/PartPresets.h"
#include "Files/Presets.h"

#include "tests/Catch.h"

#include <cmath>
#include <map>
#include <numeric>

using namespace recordings;

namespace
{
struct Range
{
    double low, high;
};

files::DrumFile withWires (files::DrumFile file, const char* wires = "strands-20")
{
    file.wires = files::findPart (files::wirePresets(), wires)->part;
    return file;
}

/** All classes of strokes on a drum tuned as the recorded one. */
std::map<StrokeClass, StrokeMeasures> measuresTunedAsRecorded (const char* drum)
{
    std::map<StrokeClass, StrokeMeasures> measures;
    for (const auto& [strokes, recordings] : instrument (withWires (tunedAsRecorded (files::openDrum (drum)))).strokes)
        measures[strokes] = medianMeasures (recordings);
    return measures;
}

constexpr double recordedDecays[]{ 0.310, 0.332, 0.333,
                                   0.310 }; ///< s, T60 from 1 to 16 kHz, wires on, of the drum whose tuning is known

/** Median of seven strokes on the head: T60 with the wires on differs by a third from one to the next. */
StrokeMeasures measuresOnHead (const files::DrumFile& file, int strands = 8)
{
    Playing playing;
    playing.speeds = { 2.0, 2.33, 2.67, 3.0, 3.33, 3.67, 4.0 };
    playing.strands = strands;
    return medianMeasures (strokesOfKind (file, engine::StrokeKind::tip, playing));
}

void requireWithin (double value, Range range, double margin)
{
    CHECK (value >= range.low - margin);
    CHECK (value <= range.high + margin);
}
} // namespace

TEST_CASE ("Tuned as the recorded drum, its octaves, what the wires add and its rimshots are the recorded ones", "[recordings]")
{
    const auto* drum = GENERATE ("maple-14x5", "steel-14x4");
    CAPTURE (drum);
    auto measures = measuresTunedAsRecorded (drum);
    const auto &on = measures[StrokeClass::headOn], &off = measures[StrokeClass::headOff];

    // Three recorded drums, 500 Hz to 16 kHz, wires on.
    constexpr Range levels[]{ { -14.4, -8.3 }, { -18.5, -11.2 }, { -20.7, -14.1 }, { -16.7, -12.8 }, { -26.7, -21.2 } };
    for (auto octave = octave1k - 1; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        requireWithin (on.bands[octave].level, levels[octave - octave1k + 1], 2.5);
    }

    // With the wires off the first milliseconds are the loudest.
    CHECK (off.bands[octave4k].attack > -1.0);

    // Rimshots, recorded: 3 to 5 dB more from 1 to 8 kHz, and louder. With two plies ours are low by a decibel: from 4 kHz up
    // most of what is heard are the wires, which the hoop keeps the tip from driving.
    const auto rimshot = compare (measures[StrokeClass::rimshotOn], on);
    requireWithin (brighter (rimshot), { 3.0, 5.0 }, 1.5);
    CHECK (rimshot.loudnessA > 0.0);
}

TEST_CASE ("Tuned as the recorded drum and with its wires off, a single-ply drum has its octaves and decays", "[recordings]")
{
    auto measures = measuresTunedAsRecorded ("maple-14x5");
    const auto& off = measures[StrokeClass::headOff];

    // 125 Hz to 8 kHz. From 8 to 16 kHz the recorded drum is 12 dB below ours: README.md.
    constexpr double levels[]{ -1.6, -5.1, -14.4, -17.8, -24.6, -29.0 };
    for (std::size_t octave = 0; octave <= octave4k; ++octave)
    {
        CAPTURE (octaves[octave]);
        requireWithin (off.bands[octave].level, { levels[octave], levels[octave] }, 4.5);
    }
    // What the wires add from 4 to 8 kHz: 13 dB. With two plies, which are too dark without wires, it is more.
    requireWithin (compare (measures[StrokeClass::headOn], off).levels[octave4k], { 13.0, 13.0 }, 3.0);

    REQUIRE (off.bands[octave4k].t60);
    requireWithin (*off.bands[octave4k].t60, { 0.107, 0.107 }, 0.04);

    // A rimshot: 6 dB more from 1 to 8 kHz (one drum); its first milliseconds are the loudest, wires on and off, at 1 to 3 ms.
    // Ours have 10 dB: the rim delay that makes them bright enough with the wires on, 0.2 ms, makes them too bright without.
    requireWithin (brighter (compare (measures[StrokeClass::rimshotOff], off)), { 6.0, 6.0 }, 4.5);
    const auto& rimshot = measures[StrokeClass::rimshotOn];
    CHECK (rimshot.bands[octave4k].attack > -1.0);
    CHECK (rimshot.bands[octave4k].peakTime <= 0.004);
}

TEST_CASE ("With the wires on, attack and decays are those of recorded drums", "[recordings]")
{
    constexpr Range decays[]{ { 0.310, 0.413 }, { 0.332, 0.507 }, { 0.333, 0.432 }, { 0.310, 0.394 } };
    const auto* drum = GENERATE ("maple-14x5", "steel-14x4");
    CAPTURE (drum);
    auto file = withWires (files::openDrum (drum));
    file.tunings.front() = file.tunings.at (1);
    const auto measures = measuresOnHead (file);

    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        REQUIRE (measures.bands[octave].t60);
        const auto range = decays[octave - octave1k];
        requireWithin (*measures.bands[octave].t60, range, 0.1 * range.high);
    }

    // The wires are loudest 16 to 32 ms after the cut, the first 5 ms 2 to 15 dB below them. Ours come back to the head after
    // some 27 ms and again, about as loud, after some 52 ms: chance decides which is the louder.
    requireWithin (measures.bands[octave4k].peakTime, { 0.016, 0.032 }, 0.022);
    requireWithin (measures.bands[octave4k].attack, { -15.0, -2.0 }, 0.0);
}

TEST_CASE ("The lowest mode glides as far as recorded from a soft stroke to the hardest", "[recordings]")
{
    // The recorded drum: 12 x 9 in, both heads at 1640 N/m as far as its partials tell.
    auto file = files::openDrum ("maple-12x5");
    file.drum.depth = 0.2286;
    file.tunings.front().target = modal::ByTension{ 1640.0, 1640.0 };
    file.wires.on = false;
    const auto centsAt = [&] (double speed)
    {
        engine::Stroke stroke;
        stroke.position = 0.0; // where the next modes up, (1,1), are not heard
        stroke.speed = speed;
        const auto glide = glideOf (played (file, stroke), 90.0, 220.0);
        REQUIRE (glide);
        return glide->cents();
    };
    const double soft = centsAt (3.0), hard = centsAt (10.0);
    CAPTURE (soft, hard);
    // 75 cents soft and 217 hardest, recorded; how fast the stick was is not known.
    CHECK (hard > 75.0);
    CHECK (hard < 217.0);
    CHECK (hard > 3.0 * soft);
}

TEST_CASE ("Tight wires are short and back at once, loose ones rattle on", "[recordings]")
{
    // Common practice, no source.
    const bool isHigh = GENERATE (false, true);
    CAPTURE (isHigh);
    const auto bandOf = [&] (const char* wires)
    {
        const auto drum = files::openDrum ("maple-14x5");
        return measuresOnHead (withWires (isHigh ? tunedAsRecorded (drum) : drum, wires)).bands[octave4k];
    };
    const auto tight = bandOf ("strands-20-tight"), usual = bandOf ("strands-20"), loose = bandOf ("strands-20-loose");
    REQUIRE (tight.t60);
    REQUIRE (usual.t60);
    REQUIRE (loose.t60);
    CAPTURE (*tight.t60, *usual.t60, *loose.t60);
    CHECK (*tight.t60 < 0.75 * *usual.t60);
    CHECK (*loose.t60 > 1.1 * *usual.t60);
    CHECK (tight.peakTime < usual.peakTime);
    CHECK (tight.peakTime < loose.peakTime);
}

TEST_CASE ("Tuned as the recorded drum, T60 with the wires on is the recorded one from 1 to 16 kHz", "[recordings]")
{
    const auto measures = measuresOnHead (withWires (tunedAsRecorded (files::openDrum ("maple-14x5"))));
    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        REQUIRE (measures.bands[octave].t60);
        CHECK (*measures.bands[octave].t60 == Approx (recordedDecays[octave - octave1k]).epsilon (0.15));
    }
}

TEST_CASE ("Eight model strands sound as the set of twenty that they stand for", "[recordings]")
{
    const auto file = withWires (tunedAsRecorded (files::openDrum ("maple-14x5")));
    const auto eight = measuresOnHead (file), twenty = measuresOnHead (file, 20);
    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        // At 1 kHz strands that are about to strike apart still count as one.
        CHECK (eight.bands[octave].level == Approx (twenty.bands[octave].level).margin (octave == octave1k ? 3.0 : 2.0));
        // They ring as long, within what strokes differ by.
        REQUIRE (twenty.bands[octave].t60);
        REQUIRE (eight.bands[octave].t60);
        CHECK (*eight.bands[octave].t60 == Approx (*twenty.bands[octave].t60).epsilon (0.25));
    }
}

TEST_CASE ("A higher resonant head makes the wires shorter", "[recordings]")
{
    // Common practice, no source.
    const auto decayAt = [] (double semitones)
    {
        auto file = files::openDrum ("maple-14x5");
        file.wires = files::findPart (files::wirePresets(), "strands-20")->part;
        const double batter = 207.65;
        file.tunings.front().target = modal::ByTapNotes{ batter, batter * std::pow (2.0, semitones / 12.0) };
        return measuresOnHead (file).bands[octave4k].t60;
    };
    const auto low = decayAt (0.0), high = decayAt (8.0);
    REQUIRE (low);
    REQUIRE (high);
    CAPTURE (*low, *high);
    CHECK (*high < 0.85 * *low);
}

TEST_CASE ("A ghost note, a loud stroke and a buzz keep their differences", "[recordings]")
{
    const auto file = files::openDrum ("maple-14x5");
    const auto strokeOfKind = [&] (engine::StrokeKind kind, double speed)
    {
        engine::Stroke stroke;
        stroke.kind = kind;
        stroke.speed = speed;
        return played (file, stroke);
    };
    const auto ghost = strokeOfKind (engine::StrokeKind::tip, 0.4), loud = strokeOfKind (engine::StrokeKind::tip, 6.0),
               buzz = strokeOfKind (engine::StrokeKind::buzz, 1.0), single = strokeOfKind (engine::StrokeKind::tip, 1.0);
    const auto soft = measure (ghost), hard = measure (loud);
    // Ten times the speed is 20 dB; what the film's stretch and the wires take or add is a few.
    CHECK (hard.loudness - soft.loudness == Approx (23.5).margin (6.0));
    // From softest to hardest the octaves from 500 Hz up rise by 0 to 5 dB against the low end (recorded, one drum).
    for (auto octave = octave1k - 1; octave <= octave4k; ++octave)
    {
        CAPTURE (octaves[octave]);
        requireWithin (hard.bands[octave].level - soft.bands[octave].level, { 0.0, 5.0 }, 7.0);
    }
    // A buzz goes on where a single stroke has faded (common practice, no source).
    const auto later = [] (const listening::Recording& recording)
    {
        const auto band = butterworthBand (recording.samples, recording.sampleRate, 2000.0, 8000.0);
        const auto windows = shortEnergies (band, recording.sampleRate);
        return 10.0 * std::log10 (std::accumulate (windows.begin() + 100, windows.begin() + 250, 0.0));
    };
    CHECK (later (buzz) > later (single) + 3.0);
}
