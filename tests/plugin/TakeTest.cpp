// Takes that are rendered to files: the same sound as is played, and files that are whole or not there.

#include "TestProcessor.h"
#include "tests/Catch.h"

#include "Files/PartPresets.h"
#include "Plugin/ComparedTakes.h"
#include "Plugin/PatternBook.h"
#include "Plugin/SetValue.h"
#include "Plugin/TakeWriter.h"
#include "Score/Loudness.h"
#include "Score/MidiNotes.h"

#include <juce_audio_formats/juce_audio_formats.h>

using namespace plugin;

namespace
{
constexpr int tempo = 100;

const Pattern& backbeat()
{
    return patternBook().front();
}

/** Left, right, above, below, distant. */
std::vector<std::vector<float>> play (const TakeRequest& request, int block)
{
    OfflineTake take (request);
    std::vector<std::vector<float>> sound (OfflineTake::channels, std::vector<float> (static_cast<std::size_t> (take.length())));
    std::size_t done = 0;

    for (int written = 1; written > 0; done += static_cast<std::size_t> (written))
    {
        std::array<float*, OfflineTake::channels> to{};
        for (std::size_t c = 0; c < to.size(); ++c)
            to[c] = sound[c].data() + done;
        written = take.render (to.data(), block);
    }

    CHECK (done == sound.front().size());
    return sound;
}

std::vector<float> readWav (const juce::File& file, unsigned channel)
{
    juce::WavAudioFormat wav;
    const std::unique_ptr<juce::AudioFormatReader> reader (wav.createReaderFor (file.createInputStream().release(), true));
    REQUIRE (reader != nullptr);
    REQUIRE (channel < reader->numChannels);
    CHECK (reader->usesFloatingPointData);
    juce::AudioBuffer<float> buffer (static_cast<int> (reader->numChannels), static_cast<int> (reader->lengthInSamples));
    reader->read (&buffer, 0, buffer.getNumSamples(), 0, true, true);
    const auto* samples = buffer.getReadPointer (static_cast<int> (channel));
    return { samples, samples + buffer.getNumSamples() };
}

/** A writer, and what it said in the end. */
struct WrittenTake
{
    TakeWriter writer;
    std::optional<TakeWriter::Result> result;

    WrittenTake()
    {
        writer.onDone = [this] (const TakeWriter::Result& r)
        {
            result = r;
            juce::MessageManager::getInstance()->stopDispatchLoop();
        };
    }

    void wait()
    {
        juce::MessageManager::getInstance()->runDispatchLoop();
        REQUIRE (result);
    }
};
} // namespace

TEST_CASE ("A rendered pattern is what the plugin plays, sample for sample, in any block size and in a place")
{
    TestProcessor test;
    const auto& church = files::findPart (files::placePresets(), "church")->part;
    const bool isInPlace = GENERATE (false, true);
    if (isInPlace)
        test.putInto (church);
    test.set (Parameter::patternTempo, tempo);
    test.set (Parameter::gain, -3.0);
    test.prepare();
    test.waitUntil ([&] { return test.processor.solvedDrum() != nullptr; });
    const auto request = takeOf (backbeat(), 1, test.processor.solvedDrum()->model, test.processor.effectiveValues());
    const auto rendered = play (request, 512);
    const bool isSameInOtherBlocks = play (request, 77) == rendered;
    CHECK (isSameInOtherBlocks);
    // It goes on until the place has died away, too.
    const double ringing = request.seconds - score::lastStroke (request.strokes);
    CHECK (ringing == Approx (isInPlace ? *std::max_element (church.times.begin(), church.times.end()) : 3.0).epsilon (0.01));
    if (isInPlace) // the sound comes from 17 m away, while the microphone above hears the stroke at once
        CHECK (std::all_of (rendered[0].begin(), rendered[0].begin() + 2000, [] (float x) { return x == 0.0f; }));
    CHECK (peakOf (rendered[0]) > 0.01f);

    // The plugin begins the pattern again when it is through; until then both are the same.
    test.set (Parameter::patternOn, 1.0);
    const auto onePass = static_cast<int> (48000.0 * backbeat().beats * 60.0 / tempo) - 1;
    const auto played = test.play ({}, onePass);
    const auto half = played.begin() + onePass;
    CHECK (std::equal (played.begin(), half, rendered[0].begin()));
    CHECK (std::equal (half, played.end(), rendered[1].begin()));
}

TEST_CASE ("Mix, microphones and MIDI part are written whole")
{
    TestProcessor test;
    test.prepare();
    test.waitUntil ([&] { return test.processor.solvedDrum() != nullptr; });
    const auto folder = test.folder.getFile();
    folder.createDirectory();
    const auto request = takeOf (backbeat(), 2, test.processor.solvedDrum()->model, test.processor.effectiveValues());
    const auto files = TakeFiles::beside (folder.getChildFile ("Groove.wav"));
    WrittenTake take;
    take.writer.start (request, files, tempo);
    take.wait();
    CHECK (take.result->fault.isEmpty());
    CHECK (take.writer.progress() == 1.0);
    CHECK (folder.getNumberOfChildFiles (juce::File::findFiles) == 5);

    const auto rendered = play (request, 512);
    CHECK (readWav (files.mix, 0) == rendered[0]);
    CHECK (readWav (files.mix, 1) == rendered[1]);
    for (std::size_t m = 0; m < files.microphones.size(); ++m)
        CHECK (readWav (files.microphones[m], 0) == rendered[2 + m]);

    // The part, as any player of Standard MIDI Files reads it, plays the same strokes at the same times.
    juce::MidiFile midi;
    auto stream = files.midi.createInputStream();
    REQUIRE (stream != nullptr);
    REQUIRE (midi.readFrom (*stream));
    midi.convertTimestampTicksToSeconds();
    std::vector<juce::MidiMessage> notes;
    for (const auto* event : *midi.getTrack (0))
        if (event->message.isNoteOn())
            notes.push_back (event->message);
    REQUIRE (notes.size() == request.strokes.size());

    for (std::size_t i = 0; i < notes.size(); ++i)
    {
        engine::Stroke stroke;
        REQUIRE (score::strokeForNote (notes[i].getNoteNumber(), notes[i].getVelocity(), stroke));
        CHECK (stroke.kind == request.strokes[i].stroke.kind);
        CHECK (stroke.position == request.strokes[i].stroke.position);
        CHECK (stroke.speed == Approx (request.strokes[i].stroke.speed).epsilon (1.0e-9));
        CHECK (notes[i].getTimeStamp() == Approx (request.strokes[i].time).margin (0.5e-3));
    }
}

TEST_CASE ("Every stroke of every pattern has a MIDI note that plays it")
{
    for (const auto& pattern : patternBook())
        for (const auto& [time, stroke] : pattern.strokes)
        {
            engine::Stroke played;
            INFO (pattern.name);
            REQUIRE (score::strokeForNote (score::noteForStroke (stroke.kind, stroke.position),
                                           score::velocityOfSpeed (stroke.speed, stroke.kind), played));
            CHECK (played.kind == stroke.kind);
            CHECK (std::abs (played.position - stroke.position) < 0.13);
            CHECK (played.speed == Approx (stroke.speed).epsilon (0.015)); // half a step of velocity
        }
}

TEST_CASE ("A take that is cancelled, or cannot be written, leaves no file")
{
    TestProcessor test;
    test.prepare();
    test.waitUntil ([&] { return test.processor.solvedDrum() != nullptr; });
    const auto folder = test.folder.getFile();
    folder.createDirectory();
    const auto model = test.processor.solvedDrum()->model;
    const auto values = test.processor.effectiveValues();

    WrittenTake cancelled;
    cancelled.writer.start (takeOf (backbeat(), 16, model, values), TakeFiles::beside (folder.getChildFile ("Long.wav")), tempo);
    test.waitUntil ([&] { return cancelled.writer.progress() > 0.0; });
    cancelled.writer.cancel();
    CHECK_FALSE (cancelled.writer.isRunning());
    CHECK (folder.getNumberOfChildFiles (juce::File::findFiles) == 0);

    const auto missing = folder.getChildFile ("no such folder");
    WrittenTake refused;
    refused.writer.start (takeOf (engine::Stroke{}, model, values), TakeFiles::beside (missing.getChildFile ("Stroke.wav")), tempo);
    refused.wait();
    CHECK (refused.result->fault.contains ("Stroke.wav"));
    CHECK (folder.getNumberOfChildFiles (juce::File::findFilesAndDirectories) == 0);
}

TEST_CASE ("Tunings play one part at one loudness, none above full scale")
{
    std::vector<Values> tunings (2, initialValues());
    setSi (tunings[0], Parameter::interval, 3.0);
    setSi (tunings[1], Parameter::interval, 7.0);
    for (auto& values : tunings)
        setSi (values, Parameter::gain, 24.0); // far above full scale, were it not for the common level
    const auto part = inSeconds (backbeat(), 1, tunings[0]);
    std::atomic<double> share{ 0.0 };
    std::atomic<bool> cancel{ false };
    const auto takes = comparedTakes (tunings, part, 48000.0, share, cancel);
    REQUIRE (takes.size() == 2);
    CHECK (share == 1.0);
    std::vector<double> loudness;
    float peak = 0.0f;
    for (const auto& take : takes)
    {
        REQUIRE (take->left.size() == take->right.size());
        CHECK (take->left.size() > 48000);
        score::LoudnessMeter meter (48000.0, 2);
        const float* const sides[] = { take->left.data(), take->right.data() };
        meter.add (sides, static_cast<int> (take->left.size()));
        loudness.push_back (meter.loudness());
        peak = std::max ({ peak, peakOf (take->left), peakOf (take->right) });
    }
    CHECK (loudness[0] == Approx (loudness[1]).margin (0.01)); // LU
    CHECK (peak <= 1.0f);
    CHECK (takes[0]->left != takes[1]->left);

    cancel = true;
    CHECK (comparedTakes (tunings, part, 48000.0, share, cancel).empty());
}

TEST_CASE ("A clip plays once; another fades it out and follows; an empty one ends it")
{
    ClipPlayer player;
    const auto constant = [] (float level, std::size_t length) {
        return std::make_shared<const Clip> (Clip{ std::vector<float> (length, level), std::vector<float> (length, -level) });
    };
    std::vector<float> left (1000), right (1000);
    const auto play = [&]
    {
        std::fill (left.begin(), left.end(), 0.0f);
        std::fill (right.begin(), right.end(), 0.0f);
        player.addTo (left.data(), right.data(), 1000);
    };
    CHECK_FALSE (player.isPlaying());
    player.play (constant (0.5f, 2500));
    CHECK (player.isPlaying());
    play();
    CHECK (left.front() == 0.5f);
    CHECK (right.back() == -0.5f);

    player.play (constant (0.25f, 500));
    play();
    CHECK (left.front() == 0.5f);
    for (std::size_t i = 1; i < 256; ++i) // no step: that would click
        CHECK (left[i - 1] - left[i] < 0.01f);
    CHECK (left[300] == 0.25f);
    CHECK (left.back() == 0.0f);
    CHECK_FALSE (player.isPlaying());

    player.play (constant (0.5f, 2500));
    play();
    player.play (std::make_shared<const Clip>());
    play();
    CHECK (left.back() == 0.0f);
    CHECK_FALSE (player.isPlaying());
}
