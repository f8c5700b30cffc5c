// The instrument against what three recorded snare drums show (close or overhead microphones, unknown rooms and treatment;
// medians of 2 to 5 strokes each). Three drums are few: decay times may miss their range by 15 %, levels by 3 dB.
//
// Not reached, and why: README.md beside this file.

#include "Instrument.h"

#include "Files/PartPresets.h"
#include "Files/Presets.h"

#include "tests/Catch.h"

#include <cmath>
#include <numeric>

using namespace recordings;

namespace
{
struct Range
{
    double low, high;
};

StrokeMeasures measuresOf (const char* drum, StrokeClass strokes, const char* wires = "strands-20")
{
    auto file = files::openDrum (drum);
    file.wires = files::findPart (files::wirePresets(), wires)->part;
    return medianMeasures (instrument (file).strokes.at (strokes));
}

void requireWithin (double value, Range range, double margin)
{
    CHECK (value >= range.low - margin);
    CHECK (value <= range.high + margin);
}
} // namespace

TEST_CASE ("With the wires on, octaves to 4 kHz, attack and decays are those of recorded drums", "[recordings]")
{
    constexpr Range levels[]{ { -14.4, -8.3 }, { -18.5, -11.2 }, { -20.7, -14.1 } };
    constexpr Range decays[]{ { 0.310, 0.413 }, { 0.332, 0.507 }, { 0.333, 0.432 }, { 0.310, 0.394 } };
    const auto* drum = GENERATE ("maple-14x5", "steel-14x4");
    const auto measures = measuresOf (drum, StrokeClass::headOn);
    CAPTURE (drum);

    for (auto octave = octave1k - 1; octave <= octave2k; ++octave)
    {
        CAPTURE (octaves[octave]);
        requireWithin (measures.bands[octave].level, levels[octave - octave1k + 1], 3.0);
    }

    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        REQUIRE (measures.bands[octave].t60);
        const auto range = decays[octave - octave1k];
        requireWithin (*measures.bands[octave].t60, range, (octave == octave1k ? 0.5 : 0.2) * range.high);
    }

    // The wires are loudest 16 to 32 ms after the cut, the first 5 ms 2 to 15 dB below them. The instrument comes back twice as
    // loud, the second time at 43 ms.
    requireWithin (measures.bands[octave4k].peakTime, { 0.016, 0.032 }, 0.012);
    requireWithin (measures.bands[octave4k].attack, { -15.0, -2.0 }, 0.0);
}

TEST_CASE ("With the wires off, the first milliseconds are the loudest and 4 to 8 kHz are gone after a tenth of a second",
           "[recordings]")
{
    const auto measures = measuresOf ("maple-14x5", StrokeClass::headOff);
    CHECK (measures.bands[octave4k].attack > -1.0);
    REQUIRE (measures.bands[octave4k].t60);
    requireWithin (*measures.bands[octave4k].t60, { 0.107, 0.107 }, 0.04);
}

TEST_CASE ("The wires add as much from 4 to 8 kHz as recorded", "[recordings]")
{
    // 13 dB recorded.
    const auto* drum = GENERATE ("maple-14x5", "steel-14x4");
    CAPTURE (drum);
    const auto added = compare (measuresOf (drum, StrokeClass::headOn), measuresOf (drum, StrokeClass::headOff));
    requireWithin (added.levels[octave4k], { 13.0, 13.0 }, 4.0);
}

TEST_CASE ("A rimshot's first milliseconds are its loudest, and it is brighter than a stroke on the head", "[recordings]")
{
    const auto rimshot = measuresOf ("maple-14x5", StrokeClass::rimshotOn), head = measuresOf ("maple-14x5", StrokeClass::headOn);
    const auto on = compare (rimshot, head);
    const auto off =
        compare (measuresOf ("maple-14x5", StrokeClass::rimshotOff), measuresOf ("maple-14x5", StrokeClass::headOff));
    // Recorded: 0 dB at 1 to 3 ms with the wires on, 3 to 5 dB more from 1 to 2 kHz; 6 dB with the wires off.
    CHECK (rimshot.bands[octave4k].attack > -1.0);
    CHECK (rimshot.bands[octave4k].peakTime <= 0.004);
    requireWithin (on.levels[octave1k], { 3.0, 5.0 }, 1.5);
    requireWithin (brighter (off), { 6.0, 6.0 }, 3.0);
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

TEST_CASE ("Tight wires are shorter than usual ones, loose ones are back later", "[recordings]")
{
    // Common practice, no source.
    const auto tight = measuresOf ("maple-14x5", StrokeClass::headOn, "strands-20-tight").bands[octave4k],
               usual = measuresOf ("maple-14x5", StrokeClass::headOn).bands[octave4k],
               loose = measuresOf ("maple-14x5", StrokeClass::headOn, "strands-20-loose").bands[octave4k];
    CHECK (tight.peakTime < loose.peakTime);
    CHECK (usual.peakTime < loose.peakTime);
    REQUIRE (tight.t60);
    REQUIRE (usual.t60);
    CHECK (*tight.t60 < 0.8 * *usual.t60);
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
        return medianMeasures (instrument (file).strokes.at (StrokeClass::headOn)).bands[octave4k].t60;
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
