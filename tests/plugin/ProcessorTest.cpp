#include "TestProcessor.h"
#include "tests/Catch.h"

#include "Plugin/Ceiling.h"
#include "Plugin/PatternBook.h"

#include "Files/DrumFile.h"
#include "Files/Presets.h"
#include "Plugin/DrumRequest.h"

#include <random>
#include <set>

using namespace plugin;

namespace
{
juce::MidiBuffer oneStroke (int note = 38, int velocity = 100, int sample = 0)
{
    juce::MidiBuffer midi;
    midi.addEvent (juce::MidiMessage::noteOn (10, note, static_cast<juce::uint8> (velocity)), sample);
    return midi;
}

juce::MidiBuffer busyBar()
{
    juce::MidiBuffer midi;
    const int notes[] = { 38, 37, 40, 22, 21, 26, 38, 24 };
    for (int i = 0; i < 24; ++i)
        midi.addEvent (juce::MidiMessage::noteOn (10, notes[i % 8], static_cast<juce::uint8> (20 + 4 * i)), 1237 * i);
    midi.addEvent (juce::MidiMessage::controllerEvent (10, 16, 90), 5000);
    midi.addEvent (juce::MidiMessage::controllerEvent (10, pressureController, 40), 15000);
    midi.addEvent (juce::MidiMessage::controllerEvent (10, 121, 0), 20000);
    midi.addEvent (juce::MidiMessage::noteOn (10, chokeNote, static_cast<juce::uint8> (100)), 29000);
    midi.addEvent (juce::MidiMessage::noteOn (10, 38, static_cast<juce::uint8> (100)), 29300);
    return midi;
}
} // namespace

TEST_CASE ("A stroke sounds at its sample and not before")
{
    TestProcessor test;
    test.prepare();
    const auto mix = test.play (oneStroke (38, 100, 1000), 24000);
    CHECK (peakOf ({ mix.begin(), mix.begin() + 1000 }) == 0.0f);
    CHECK (peakOf ({ mix.begin() + 1000, mix.begin() + 1200 }) > 1.0e-3f);
    CHECK (test.processor.getLatencySamples() == 0);
}

TEST_CASE ("A render is the same bit for bit in any block size, offline and in real time")
{
    const auto render = [] (bool offline, auto&& nextBlock)
    {
        TestProcessor test;
        test.set (Parameter::positionController, 16.0);
        test.processor.setNonRealtime (offline);
        test.prepare();
        return test.play (busyBar(), 60000, nextBlock);
    };

    const auto reference = render (false, [] { return 64; });
    CHECK (peakOf (reference) > 0.01f);
    std::mt19937 random (1);
    CHECK (render (true, [] { return 8192; }) == reference);
    CHECK (render (true, [] { return 441; }) == reference);
    CHECK (render (false, [&] { return std::uniform_int_distribution (1, 700) (random); }) == reference);
    CHECK (render (false, [] { return 1; }) == reference);
}

TEST_CASE ("A note on the tuning channel sets the batter note at its sample in an offline render")
{
    const auto render = [] (int block, bool isTuned)
    {
        TestProcessor test;
        test.processor.setNonRealtime (true);
        test.set (Parameter::tuningChannel, 2.0);
        test.set (Parameter::wiresOn, 0.0);
        test.prepare();
        auto midi = oneStroke (38, 100, 100);
        if (isTuned)
            midi.addEvent (juce::MidiMessage::noteOn (2, 58, static_cast<juce::uint8> (100)), 7777);
        auto sound = test.play (midi, 30000, [block] { return block; });
        // A#3 is 233.08 Hz, the G#3 before 207.65 Hz (ISO 16, equal temperament).
        const double expected = isTuned ? 233.08 : 207.65;
        test.waitUntil ([&] { return std::abs (test.batterTapNote() - expected) < 0.05; });
        CHECK (test.batterTapNote() == Approx (expected).epsilon (2.0e-4));
        sound.resize (30000); // the left channel
        return sound;
    };

    const auto tuned = render (64, true), untuned = render (64, false);
    CHECK (tuned == render (1000, true));
    CHECK (std::equal (tuned.begin(), tuned.begin() + 7777, untuned.begin()));
    float difference = 0.0f;
    for (std::size_t i = 9000; i < tuned.size(); ++i)
        difference = std::max (difference, std::abs (tuned[i] - untuned[i]));
    CHECK (difference > 0.1f * peakOf ({ untuned.begin() + 9000, untuned.end() }));
}

TEST_CASE ("The drum that is played has the notes that were set")
{
    TestProcessor test;
    test.set (Parameter::batterNote, 58.0);
    test.set (Parameter::interval, 7.0);
    test.prepare();

    // The prediction follows the model.
    test.waitUntil ([&] { return test.batterTapNote() > 0.0; });

    const auto drum = test.processor.solvedDrum();
    REQUIRE (drum != nullptr);
    // A#3 is 233.08 Hz (ISO 16, equal temperament); a tempered fifth above is 2^(7/12) of that.
    CHECK (drum->prediction.batter.tapNote == Approx (233.08).epsilon (1.0e-4));
    CHECK (drum->prediction.resonant.tapNote == Approx (233.08 * std::exp2 (7.0 / 12.0)).epsilon (1.0e-4));
    CHECK (test.processor.getTailLengthSeconds() > 0.05);
}

TEST_CASE ("A tension beyond the head's yield strength is refused with a reason, and the drum plays on")
{
    TestProcessor test;
    test.prepare();
    test.set (Parameter::batterNote, 84.0);
    test.prepare();
    CHECK (test.processor.messages().latest().kind == Messages::Kind::refusal);
    CHECK (test.processor.messages().latest().text.find ("batter") != std::string::npos);
    INFO (test.processor.messages().latest().text);
    CHECK (test.processor.parameter (Parameter::batterNote).plainValue() == 84.0); // kept, not clipped
    CHECK (peakOf (test.play (oneStroke(), 24000)) > 1.0e-3f);
    test.set (Parameter::batterNote, 56.0);
    test.prepare();
    test.waitUntil ([&] { return test.processor.solvedDrum()->refusal.empty(); });
    CHECK (test.processor.solvedDrum()->refusal.empty());
}

TEST_CASE ("A change of the drum while it rings makes no click")
{
    TestProcessor test;
    test.processor.setNonRealtime (true);
    test.set (Parameter::wiresOn, 0.0);
    test.prepare();
    auto before = test.play (oneStroke(), 9600);
    test.set (Parameter::interval, 5.5);
    const auto after = test.play ({}, 4800);
    before.resize (9600);

    // A click is a burst of high frequencies, which differences of third order bring out: they gain 18 dB an octave.
    auto sound = before;
    sound.insert (sound.end(), after.begin(), after.begin() + 4800);
    auto differences = sound;
    for (int order = 0; order < 3; ++order)
        for (std::size_t i = differences.size() - 1; i > 0; --i)
            differences[i] -= differences[i - 1];
    const auto peakIn = [] (const std::vector<float>& samples, int first, int last) {
        return peakOf ({ samples.begin() + first, samples.begin() + last });
    };
    // Not more than before, or 54 dB below the tone (the highest frequencies gain 18 dB here).
    CHECK (peakIn (differences, 9600, 10080) <
           std::max (1.5f * peakIn (differences, 9120, 9600), 2.0e-3f * peakIn (sound, 8600, 9600)));
    CHECK (peakIn (sound, 9600, 11600) < 1.3f * peakIn (sound, 8600, 9600));
    CHECK (peakIn (sound, 9600, 11600) > 0.5f * peakIn (sound, 8600, 9600));
}

TEST_CASE ("Bypass is silent and without a click; choke silences within 100 ms and a new stroke sounds")
{
    TestProcessor test;
    test.prepare();
    test.play (oneStroke (38, 127), 480);
    test.set (Parameter::bypass, 1.0);
    test.play ({}, 4800);
    CHECK (peakOf (test.play (oneStroke(), 4800)) == 0.0f);
    test.set (Parameter::bypass, 0.0);
    test.prepare();

    const auto struck = peakOf (test.play (oneStroke (38, 127), 2400));
    test.play (oneStroke (chokeNote), 4800);
    CHECK (peakOf (test.play ({}, 2400)) < 1.0e-3f * struck);
    CHECK (peakOf (test.play (oneStroke (38, 127), 2400)) > 0.5f * struck);
}

TEST_CASE ("The output never exceeds 6 dB over full scale and is unchanged up to full scale")
{
    CHECK (belowCeiling (0.731f) == 0.731f);
    CHECK (belowCeiling (-1.0f) == -1.0f);
    CHECK (belowCeiling (1.001f) == Approx (1.001f).epsilon (1.0e-5));
    CHECK (belowCeiling (117.0f) <= 2.0f);
    CHECK (belowCeiling (-1.0e30f) >= -2.0f);
    CHECK (belowCeiling (std::numeric_limits<float>::infinity()) == 0.0f);
    CHECK (belowCeiling (std::numeric_limits<float>::quiet_NaN()) == 0.0f);

    TestProcessor test;
    test.set (Parameter::gain, 12.0);
    test.set (Parameter::aboveLevel, 12.0);
    test.prepare();
    const auto peak = peakOf (test.play (oneStroke (40, 127), 9600));
    CHECK (peak > 1.0f);
    CHECK (peak <= highestSample);
}

TEST_CASE ("Each microphone has an output of its own")
{
    TestProcessor test;
    auto layout = test.processor.getBusesLayout();
    for (int bus = 1; bus <= 3; ++bus)
        layout.outputBuses.getReference (bus) = juce::AudioChannelSet::mono();
    REQUIRE (test.processor.setBusesLayout (layout));
    test.prepare();
    juce::AudioBuffer<float> buffer (5, 4800);
    auto midi = oneStroke();
    test.processor.processBlock (buffer, midi);
    for (int channel = 0; channel < 5; ++channel)
        CHECK (buffer.getMagnitude (channel, 0, 4800) > 1.0e-4f);
    // Equal gains, panned to the centre: the mix is the sum of the microphones, 3 dB down on each side.
    for (int i = 0; i < 4800; i += 100)
    {
        const auto sum = buffer.getSample (2, i) + buffer.getSample (3, i) + buffer.getSample (4, i);
        CHECK (buffer.getSample (0, i) == Approx (sum * std::sqrt (0.5f)).margin (1.0e-5));
    }
}

TEST_CASE ("A state saved during a note reads back the same, and half a state does no harm")
{
    TestProcessor test;
    test.set (Parameter::interval, 4.0);
    test.set (Parameter::wireTension, 3.5);
    test.processor.storeSnapshot (LiveSound::a);
    test.set (Parameter::interval, 7.0);
    test.prepare();
    test.play (oneStroke(), 100);
    juce::MemoryBlock saved;
    test.processor.getStateInformation (saved);

    TestProcessor other;
    other.processor.setStateInformation (saved.getData(), static_cast<int> (saved.getSize()));
    CHECK (other.processor.state().live == test.processor.state().live);
    CHECK (other.processor.state().snapshots == test.processor.state().snapshots);
    other.processor.setStateInformation (saved.getData(), static_cast<int> (saved.getSize()) / 2);
    CHECK (other.processor.state().live == initialValues());
    CHECK (other.processor.messages().latest().kind == Messages::Kind::refusal);
}

TEST_CASE ("Each of eight kept tunings comes back, and clearing one leaves the others")
{
    TestProcessor test;
    auto& processor = test.processor;
    const auto kept = [] (int i) { return static_cast<LiveSound::Snapshot> (i); };

    for (int i = 0; i < 8; ++i)
    {
        test.set (Parameter::interval, i + 1.0);
        processor.storeSnapshot (kept (i));
    }

    processor.clearSnapshot (LiveSound::d);
    test.set (Parameter::gain, -9.0);

    for (int i = 0; i < 8; ++i)
    {
        const auto before = processor.parameter (Parameter::interval).plainValue();
        processor.recallSnapshot (kept (i));
        CHECK (processor.hasSnapshot (kept (i)) == (i != 3));
        CHECK (processor.parameter (Parameter::interval).plainValue() == Approx (i == 3 ? before : i + 1.0));
    }

    processor.undoManager().undo();
    CHECK (processor.parameter (Parameter::interval).plainValue() == Approx (7.0));
    CHECK (Processor::nameOf (LiveSound::h) == "H");
}

TEST_CASE ("Morphing goes from one snapshot to the other")
{
    TestProcessor test;
    test.set (Parameter::interval, 4.0);
    test.processor.storeSnapshot (LiveSound::a);
    test.set (Parameter::interval, 7.0);
    test.set (Parameter::wiresOn, 0.0);
    test.processor.storeSnapshot (LiveSound::b);
    test.set (Parameter::morphOn, 1.0);

    for (const auto& [share, interval] : { std::pair{ 0.0, 4.0f }, std::pair{ 50.0, 5.5f }, std::pair{ 100.0, 7.0f } })
    {
        test.set (Parameter::morph, share);
        CHECK (test.processor.effectiveValues()[indexOf (Parameter::interval)] == Approx (interval));
    }
    CHECK (test.processor.effectiveValues()[indexOf (Parameter::wiresOn)] == 0.0f);
}

TEST_CASE ("Undo reverts gestures, recalls and presets; automation adds no steps")
{
    TestProcessor test;
    auto& processor = test.processor;
    const auto interval = [&] { return processor.parameter (Parameter::interval).plainValue(); };
    test.set (Parameter::interval, 9.0);
    CHECK (interval() == 9.0);
    REQUIRE (processor.undoManager().undo());
    CHECK (interval() == 5.0);
    REQUIRE (processor.undoManager().redo());
    CHECK (interval() == 9.0);

    for (int i = 0; i < 50; ++i)
        processor.parameter (Parameter::depth).setValue (0.01f * static_cast<float> (i));
    REQUIRE (processor.undoManager().undo());
    CHECK (interval() == 5.0);
    CHECK_FALSE (processor.undoManager().canUndo());

    const auto before = processor.state().live;
    processor.loadPreset (processor.presets().entries().back());
    CHECK (processor.state().live != before);
    REQUIRE (processor.undoManager().undo());
    CHECK (processor.state().live == before);
}

TEST_CASE ("User presets are saved, renamed, deleted, and undone")
{
    TestProcessor test;
    auto& processor = test.processor;
    const auto users = [&]
    {
        juce::StringArray names;
        for (const auto& entry : processor.presets().entries())
            if (entry.isUsers)
                names.add (entry.name);
        return names;
    };
    const auto entryOf = [&] (const juce::String& name)
    {
        for (const auto& entry : processor.presets().entries())
            if (entry.isUsers && entry.name == name)
                return entry;
        return PresetEntry{};
    };

    test.set (Parameter::interval, 8.0);
    processor.savePreset ("Low ballad");
    CHECK (users() == juce::StringArray{ "Low ballad" });
    CHECK (processor.presets().rename (entryOf ("Low ballad"), "High march", processor.undoManager()).isEmpty());
    CHECK (users() == juce::StringArray{ "High march" });
    CHECK (processor.presets().remove (entryOf ("High march"), processor.undoManager()).isEmpty());
    CHECK (users().isEmpty());
    REQUIRE (processor.undoManager().undo());
    CHECK (users() == juce::StringArray{ "High march" });

    test.set (Parameter::interval, 2.0);
    processor.loadPreset (entryOf ("High march"));
    CHECK (processor.parameter (Parameter::interval).plainValue() == 8.0);
    CHECK (processor.presetName() == "High march");

    CHECK (processor.presets().remove (processor.presets().entries().front(), processor.undoManager()).isNotEmpty());
    CHECK (processor.presets().save ("../../etc/passwd", processor.state(), processor.undoManager()).isEmpty());
    CHECK (test.folder.getFile().getNumberOfChildFiles (juce::File::findFiles) == 2);
}

TEST_CASE ("An exported drum file reads back as the same drum")
{
    TestProcessor test;
    test.set (Parameter::diameter, 13.0);
    test.set (Parameter::batterNote, 58.0);
    test.set (batterLug (2), -15.0);
    const auto file = test.folder.getFile().getChildFile ("Mine.drum.json");
    test.folder.getFile().createDirectory();
    test.processor.exportPreset (file);
    const auto before = test.processor.state().live;
    TestProcessor other;
    other.processor.importPreset (file);
    INFO (other.processor.messages().latest().text);
    for (const auto parameter : { Parameter::diameter, Parameter::batterNote, Parameter::interval, batterLug (2) })
        CHECK (other.processor.state().live[indexOf (parameter)] == Approx (before[indexOf (parameter)]).margin (0.011));
}

TEST_CASE ("What the window exports is a drum file with all it keeps")
{
    TestProcessor test;
    auto& processor = test.processor;
    test.folder.getFile().createDirectory();
    test.set (Parameter::interval, 7.0);
    processor.storeSnapshot (LiveSound::a);
    test.set (Parameter::interval, 4.0);
    test.set (Parameter::batterCents, 13.0);
    test.set (Parameter::belowLevel, -9.0);
    test.set (Parameter::aboveHeight, 120.0);
    test.set (Parameter::strokePlace, 40.0);
    test.set (Parameter::pattern, 2.0);
    test.set (Parameter::patternTempo, 88.0);
    const auto exported = test.folder.getFile().getChildFile ("Mine.json");
    processor.exportPreset (exported);
    processor.savePreset ("Saved");

    // As the command line program reads it: drum, both tunings, microphones, pattern.
    for (const auto& path : { exported, test.folder.getFile().getChildFile ("Saved.snarewright.json") })
    {
        const auto file = files::loadDrum (path.getFullPathName().toStdString());
        REQUIRE (! file.tunings.empty());
        const auto notes = std::get<modal::ByTapNotes> (file.tunings.front().target);
        // ISO 16; the batter stands 13 cents above its note, the resonant head four semitones above that note.
        CHECK (1200.0 * std::log2 (notes.resonant / notes.batter) == Approx (387.0).margin (0.01));
        REQUIRE (file.microphones);
        CHECK ((*file.microphones)[1].level == Approx (-9.0));
        CHECK ((*file.microphones)[0].z == Approx (0.12));
        REQUIRE (file.pattern);
        CHECK (file.pattern->strokes == patternBook()[2].text);
        CHECK (file.pattern->tempo == Approx (88.0));
    }
    CHECK (files::loadDrum (exported.getFullPathName().toStdString()).tunings.size() == 2);

    // Back in another window: every value that belongs to the sound, the pattern, and the kept tuning.
    const auto all = processor.state();
    TestProcessor other;
    other.processor.importPreset (exported);
    INFO (other.processor.messages().latest().text);
    CHECK (morphed (other.processor.state().live, other.processor.state().live, 0.0, all.live) == all.live);
    CHECK (other.processor.parameter (Parameter::pattern).plainValue() == 2.0);
    CHECK (other.processor.parameter (Parameter::patternTempo).plainValue() == Approx (88.0));
    REQUIRE (other.processor.hasSnapshot (LiveSound::a));
    CHECK (valueOf (other.processor.snapshot (LiveSound::a), Parameter::interval) == Approx (7.0).margin (0.001));

    // A change made by hand to the drum's part of the file holds.
    const auto changed = exported.loadFileAsString().replace ("\"lugs\": 10", "\"lugs\": 8");
    REQUIRE (changed != exported.loadFileAsString());
    exported.replaceWithText (changed);
    other.processor.importPreset (exported);
    CHECK (other.processor.parameter (Parameter::lugs).plainValue() == 8.0);
    CHECK (other.processor.parameter (Parameter::strokePlace).plainValue() == Approx (40.0));
}

TEST_CASE ("Any sound comes back from its file as it was")
{
    TestProcessor test;
    test.folder.getFile().createDirectory();
    const auto file = test.folder.getFile().getChildFile ("Any.json");
    const auto& library = test.processor.presets();
    std::mt19937 random (3);

    for (int i = 0; i < 100; ++i)
    {
        CAPTURE (i);
        State state;
        for (std::size_t p = 0; p < parameterCount; ++p)
        {
            const auto& spec = parameterTable()[p];
            if (random() % 4 > 0) // some stay as they are, since files leave out what is usual
                state.live[p] = static_cast<float> (spec.snapped (std::uniform_real_distribution (spec.low, spec.high) (random)));
        }

        const auto fault = library.exportFile (file, state);
        INFO (fault);
        REQUIRE (fault.isEmpty());
        State read;
        REQUIRE (library.importFile (file, read).fault.isEmpty());
        CHECK (read.live == state.live);

        // From the drum's part alone: the same drum, wires, stick and notes.
        auto plain = files::loadDrum (file.getFullPathName().toStdString());
        plain.window = nullptr;
        file.replaceWithText (files::writeDrum (plain));
        State drum;
        REQUIRE (library.importFile (file, drum).fault.isEmpty());
        const auto again = drumFileOf (drum.live, plain.drum.name);
        if (plain.drum.hasResonantHead()) // without one, the file's resonant head is not read
            CHECK (files::drumAsJson (again.drum, again.weather) == files::drumAsJson (plain.drum, plain.weather));
        CHECK (files::wiresAsJson (again.wires) == files::wiresAsJson (plain.wires));
        CHECK (files::stickAsJson (again.stick) == files::stickAsJson (plain.stick));
        const auto& was = std::get<modal::ByTapNotes> (plain.tunings.front().target);
        const auto& is = std::get<modal::ByTapNotes> (again.tunings.front().target);
        CHECK (std::abs (modal::centsBetween (was.batter, is.batter)) < 0.06); // steps of 0.1 cents
        if (plain.drum.hasResonantHead())
            CHECK (std::abs (modal::centsBetween (was.resonant, is.resonant)) < 0.06);
    }
}

TEST_CASE ("What the window cannot hold of a drum file is said")
{
    TestProcessor test;
    auto& processor = test.processor;
    test.folder.getFile().createDirectory();
    auto file = files::openDrum ("maple-14x5");
    file.pattern = files::PatternSpec{ "o1k2z3", 90.0, 3 };
    file.tunings.resize (11, file.tunings.front());
    const auto path = test.folder.getFile().getChildFile ("Many.json");
    path.replaceWithText (files::writeDrum (file));
    processor.importPreset (path);
    CHECK (processor.parameter (Parameter::patternTempo).plainValue() == 90.0);
    CHECK (processor.hasSnapshot (LiveSound::h));
    const auto said = processor.messages().latest().text;
    CHECK (said == "The pattern of the file is none of the window's, which keeps its own. 2 tunings of the file were left out: no letter "
                   "is free.");
}

TEST_CASE ("A preset saved by an older version still loads")
{
    TestProcessor test;
    const juce::File old (SNAREWRIGHT_TEST_DATA "/state-0.1.0.json");
    test.processor.importPreset (old);
    CHECK (test.processor.presetName() == "Frozen");
    CHECK (test.processor.parameter (Parameter::diameter).plainValue() == Approx (13.0));
}

TEST_CASE ("Every bundled preset loads and can be tuned")
{
    TestProcessor test;
    const auto entries = test.processor.presets().entries();
    std::set<juce::String> drums;
    int tunings = 0;

    for (const auto& entry : entries)
    {
        if (entry.isUsers)
            continue;
        CAPTURE (entry.builtIn, entry.tuning);
        const auto number = test.processor.messages().latest().number;
        test.processor.loadPreset (entry);
        test.prepare();
        CHECK (test.processor.messages().latest().number == number);
        INFO (test.processor.messages().latest().text);
        CHECK (peakOf (test.play (oneStroke(), 4800)) > 1.0e-4f);
        drums.insert (entry.drum);
        ++tunings;
    }

    CHECK (drums.size() >= 12);
    CHECK (tunings >= 24);
}

TEST_CASE ("Patterns play without a controller")
{
    TestProcessor test;
    test.prepare();
    for (std::size_t i = 0; i < patternBook().size(); ++i)
    {
        test.set (Parameter::pattern, static_cast<double> (i));
        test.set (Parameter::patternOn, 1.0);
        CHECK (peakOf (test.play ({}, 72000)) > 1.0e-3f);
        test.set (Parameter::patternOn, 0.0);
        test.play ({}, 512);
    }
}

TEST_CASE ("The last stroke's sound can be read while it plays")
{
    TestProcessor test;
    test.prepare();
    CHECK (test.processor.lastStrike().copy().stroke == 0);
    engine::Stroke stroke;
    CHECK (test.processor.audition (stroke));
    test.play ({}, 4800);
    const auto copy = test.processor.lastStrike().copy();
    CHECK (copy.stroke == 1);
    CHECK (copy.samples.size() == 4800);
    CHECK (peakOf (copy.samples) > 1.0e-3f);
}

TEST_CASE ("A sample rate out of range is refused with a message and stays silent")
{
    TestProcessor test;
    test.prepare (8000.0);
    CHECK (test.processor.messages().latest().kind == Messages::Kind::refusal);
    CHECK (peakOf (test.play (oneStroke(), 4800)) == 0.0f);
    for (const double rate : { 22050.0, 44100.0, 96000.0, 192000.0 })
    {
        test.prepare (rate);
        CHECK (peakOf (test.play (oneStroke(), 4800)) > 1.0e-3f);
    }
}
