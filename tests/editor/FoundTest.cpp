// Three users go from what they want to a tuning, a plan for the rods and a sheet, with mouse and keyboard.
#include "TestWindow.h"

#include "MessageThread.h"
#include "SyntheticDrum.h"

#include "Editor/Strings.h"
#include "Files/DrumFile.h"
#include "tests/Catch.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <cmath>

namespace
{
using finding::Figure;
using plugin::Parameter;

editor::FoundBar& found (TestWindow& window)
{
    return window.view().mapView().foundBar();
}

void fill (TestWindow& window, editor::WishField& field, const juce::String& text)
{
    onMessageThread ([&] { field.setText (text); });
    REQUIRE (window.awaitMap());
}

bool hasFound (TestWindow& window, std::size_t least)
{
    return waitUntil (
        [&] { return window.view().mapView().keeper().found().list.size() >= least && ! window.view().mapView().isBusy(); });
}

bool explains (TestWindow& window, const juce::String& words)
{
    return waitUntil ([&] { return window.view().mapView().explanation().contains (words); });
}

/** Two strokes on the snare, and a note that plays none. */
juce::File writePart()
{
    juce::MidiMessageSequence track;
    for (const auto& [note, ticks] : { std::pair{ 38, 0.0 }, std::pair{ 60, 10.0 }, std::pair{ 38, 96.0 } })
        track.addEvent (juce::MidiMessage::noteOn (10, note, juce::uint8{ 90 }), ticks);
    juce::MidiFile midi;
    midi.setTicksPerQuarterNote (480);
    midi.addTrack (track);
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile ("part.mid");
    file.deleteFile();
    juce::FileOutputStream out (file);
    REQUIRE (midi.writeTo (out));
    return file;
}

/** Writes a sheet from the map page; it is a PDF of some size. */
void writeSheet (TestWindow& window, const juce::String& name)
{
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile (name);
    file.deleteFile();
    onMessageThread ([&] { window.view().mapView().writeSheet (file); });
    REQUIRE (waitUntil ([&] { return file.existsAsFile() && ! window.view().mapView().isBusy(); }));
    CHECK (window.hint().contains (name));
    CHECK (file.loadFileAsString().startsWith ("%PDF"));
    CHECK (file.getSize() > 10000);
}

} // namespace

TEST_CASE ("A producer goes from a song to a list, hears it blind with a part, and keeps the choice")
{
    TestWindow window;
    REQUIRE (window.openMap());
    auto& map = window.view().mapView();
    fill (window, map.keyField(), "D minor");
    fill (window, map.field (Figure::interval), "M3:P5");
    REQUIRE (hasFound (window, 2));
    const auto list = fromMessageThread ([&] { return map.keeper().found().list; });

    // Cancelled, the list is as it was.
    const auto part = writePart();
    auto& bar = found (window);
    onMessageThread ([&] { bar.hear (part); });
    CHECK (fromMessageThread ([&] { return bar.hearButton().getButtonText(); }) == editor::strings::cancelRender);
    window.click (bar.hearButton());
    CHECK_FALSE (fromMessageThread ([&] { return bar.isRendering() || bar.isReady(); }));
    CHECK (window.hint() == editor::strings::hearCancelled);

    // Blind: one after the other, under numbers, while the drum stays as it is.
    const double before = window.plain (Parameter::batterNote);
    window.click (bar.blindButton());
    onMessageThread ([&] { map.filesDropped ({ part.getFullPathName() }, 0, 0); });
    CHECK (window.hint().contains ("1 note of 3 has no stroke (60)"));
    REQUIRE (waitUntil ([&] { return bar.sounding() == 0; }));
    CHECK (fromMessageThread ([&] { return bar.tuningButton (0).getButtonText(); }) == "1");
    CHECK (fromMessageThread ([&] { return bar.tuningButton (1).getTooltip(); }) == editor::strings::blindFoundTip);
    window.picture ("found-blind");
    REQUIRE (waitUntil ([&] { return bar.sounding() == 1; }));
    CHECK (window.plain (Parameter::batterNote) == before);
    window.click (bar.tuningButton (1));
    CHECK (fromMessageThread ([&] { return bar.sounding(); }) == 1);

    // Chosen: the drum is tuned to one of the list, and the rods' turns are shown.
    window.click (bar.chooseButton());
    CHECK (window.hint().contains ("You chose"));
    REQUIRE (window.settle());
    const auto now = window.prediction();
    CHECK (std::any_of (list.begin(), list.end(),
                        [&] (const auto& tuning)
                        {
                            return std::abs (modal::centsBetween (tuning.batterNote, now.batter.tapNote)) < 2.0 &&
                                   std::abs (modal::centsBetween (tuning.resonantNote, now.resonant.tapNote)) < 2.0;
                        }));
    CHECK (fromMessageThread ([&] { return bar.tuningButton (0).getButtonText(); }).length() > 4);
    // Which of the list it is, chance decides: one is a few cents from the tuning that was set.
    CHECK (waitUntil (
        [&]
        {
            const auto shown = map.explanation();
            return shown.contains ("Turn all rods: ") || shown.contains (editor::strings::nothingToTurn);
        }));
    writeSheet (window, "producer.pdf");
    window.picture ("found-chosen");
    window.resize (800, 500);
    window.picture ("found-chosen-small", 2.0f);
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    CHECK (window.processor().hasSnapshot (plugin::LiveSound::a));
    part.deleteFile();
}

TEST_CASE ("A teacher widens the interval along one drum note, and takes the tunings away as a file for a lesson")
{
    TestWindow window;
    REQUIRE (window.openMap());
    auto& plot = window.view().mapView().mapPlot();
    const double drumNote = window.prediction().drumNote, interval = window.prediction().interval.semitones;
    for (int step = 0; step < 2; ++step)
    {
        window.click (*window.buttonNamed (editor::strings::keepTuning.name));
        window.focus (plot);
        window.press (juce::KeyPress (juce::KeyPress::leftKey, juce::ModifierKeys::altModifier, 0));
        REQUIRE (window.settle());
        CHECK (std::abs (modal::centsBetween (drumNote, window.prediction().drumNote)) < 6.0);
    }
    CHECK (window.prediction().interval.semitones > interval + 2.0);

    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile ("lesson.json");
    onMessageThread ([&] { window.processor().exportPreset (file); });
    const auto lesson = files::readDrum (file.loadFileAsString().toStdString(), "lesson.json");
    REQUIRE (lesson.tunings.size() == 3);
    for (const auto& tuning : lesson.tunings)
        CHECK (std::abs (modal::centsBetween (drumNote, modal::predict (lesson.drum, tuning, {}).drumNote)) < 6.0);
    file.deleteFile();
}

TEST_CASE ("A tech's recorded lug check becomes an answer, a plan and a sheet")
{
    TestWindow window;
    constexpr int lugs = 6;
    constexpr double tension = 2600.0; // N/m
    onMessageThread ([&] { window.processor().parameter (Parameter::lugs).setPlainValue (lugs); });
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    auto& listen = window.view().listenView();

    const synthetic::LugCheck check{ .drum = plugin::requestOf (window.processor().effectiveValues()).drum,
                                     .tension = tension,
                                     .lugs = std::vector<double> (lugs, 0.0),
                                     .between = 1.1 };
    const auto recording = synthetic::record (check, { .signalToNoise = 30.0 });
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile ("lugs.wav");
    file.deleteFile();
    {
        const std::vector<float> samples (recording.samples.begin(), recording.samples.end());
        const float* const channel = samples.data();
        const std::unique_ptr<juce::AudioFormatWriter> writer (
            juce::WavAudioFormat().createWriterFor (new juce::FileOutputStream (file), recording.sampleRate, 1, 24, {}, 0));
        REQUIRE (writer->writeFromFloatArrays (&channel, 1, static_cast<int> (samples.size())));
    }
    onMessageThread ([&] { listen.filesDropped ({ file.getFullPathName() }, 0, 0); });
    REQUIRE (waitUntil ([&] { return listen.applyButton().isEnabled(); }));
    window.click (listen.applyButton());
    REQUIRE (window.settle());
    CHECK (window.prediction().batter.tension == Approx (tension).epsilon (0.02));
    REQUIRE (waitUntil ([&] { return listen.rodsText() == editor::strings::nothingToTurn; }));

    // Going on with the input leaves the file behind.
    window.click (listen.lug (2));
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return window.processor().listener().isListening(); }));
    CHECK (waitUntil ([&] { return window.processor().listener().report()->recorded == nullptr; }));
    window.click (listen.startButton());

    // A wish a semitone up for the batter alone: the answer is the way there.
    REQUIRE (window.openMap());
    auto& map = window.view().mapView();
    fill (window, map.field (Figure::batterMove), "0.9:1.1");
    fill (window, map.field (Figure::resonantMove), "stays");
    REQUIRE (hasFound (window, 1));
    window.click (found (window).tuningButton (0));
    REQUIRE (window.settle());
    CHECK (explains (window, "Turn all rods: batter "));
    CHECK (fromMessageThread ([&] { return map.explanation(); }).contains (" up"));
    writeSheet (window, "tech.pdf");
    file.deleteFile();
}
