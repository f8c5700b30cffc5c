#include "TestProcessor.h"

#include "Files/PartPresets.h"
#include "tests/Catch.h"

#include <cmath>

using namespace plugin;

namespace
{
/** A processor that renders offline, wires off, with a stroke at the first sample. */
struct Instrument : TestProcessor
{
    juce::MidiBuffer stroke;

    Instrument()
    {
        processor.setNonRealtime (true);
        set (Parameter::wiresOn, 0.0);
        stroke.addEvent (juce::MidiMessage::noteOn (10, 38, static_cast<juce::uint8> (100)), 0);
    }

    std::vector<float> render (int frames)
    {
        prepare();
        return play (stroke, frames);
    }
};

/** Of the left channel, which is the first half. */
double energy (const std::vector<float>& samples, std::size_t from, std::size_t to)
{
    double sum = 0.0;
    for (auto i = from; i < to; ++i)
        sum += static_cast<double> (samples[i]) * static_cast<double> (samples[i]);
    return sum;
}

const place::Place& church()
{
    return files::findPart (files::placePresets(), "church")->part;
}
} // namespace

TEST_CASE ("The place is off until it is chosen, and then the listener is heard")
{
    constexpr int frames = 120000;
    Instrument instrument;
    const auto alone = instrument.render (frames);

    // Numbers of a place that is off change nothing.
    instrument.set (Parameter::roomVolume, 5000.0);
    instrument.set (Parameter::placeLevel, 40.0);
    const bool isSame = instrument.render (frames) == alone;
    CHECK (isSame);

    instrument.putInto (church());
    const auto inChurch = instrument.render (frames);
    CHECK (peakOf (inChurch) > 0.0f);
    // Two seconds after the stroke only the church is left.
    CHECK (energy (inChurch, 96000, frames) / energy (inChurch, 0, frames) > 100.0 * energy (alone, 96000, frames) / energy (alone, 0, frames));
    CHECK (instrument.processor.getTailLengthSeconds() > 3.0);
    // The drum's first sound travels 17 m, less the way to the distant microphone.
    CHECK (energy (inChurch, 0, 2000) == 0.0);

    // Without the listener and with the microphones in full it is what it was.
    instrument.set (Parameter::placeLevel, -60.0);
    instrument.set (Parameter::microphonesInPlace, 0.0);
    const bool isBack = instrument.render (frames) == alone;
    CHECK (isBack);
}

TEST_CASE ("The place changes while it sounds")
{
    Instrument instrument;
    instrument.putInto (church());
    instrument.prepare();
    auto heard = instrument.play (instrument.stroke, 24000);
    instrument.set (Parameter::placeOn, 0.0);
    heard = instrument.play ({}, 9600);
    // Without a place the drum's own microphones are heard again.
    CHECK (energy (heard, 4800, 9600) > 0.0);
    instrument.set (Parameter::placeOn, 1.0);
    instrument.set (Parameter::roomVolume, 200.0);
    for (int i = 0; i < 10; ++i)
    {
        instrument.set (Parameter::listenerDistance, 1.0 + i);
        heard = instrument.play (instrument.stroke, 3000);
        CHECK (std::all_of (heard.begin(), heard.end(), [] (float x) { return std::isfinite (x); }));
    }
}

TEST_CASE ("A drum file's place is set and written back")
{
    for (const auto& preset : files::placePresets())
    {
        auto values = initialValues();
        CHECK_FALSE (drumFileOf (values, "drum").place);
        auto file = drumFileOf (values, "drum");
        file.place = preset.part;
        setDrum (values, file, 0);
        const auto again = drumFileOf (values, "drum").place;
        REQUIRE (again);
        CHECK (again->kind == preset.part.kind);
        for (const auto& number : modal::numbersOf<place::Place>)
            CHECK ((*again).*number.member == Approx (preset.part.*number.member).epsilon (0.01));
        for (std::size_t octave = 0; octave < again->times.size(); ++octave)
            CHECK (again->times[octave] == Approx (preset.part.times[octave]).margin (0.006));
    }
}
