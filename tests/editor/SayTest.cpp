// Messages and comparisons: no change where there is none, no value out of range, no old strike shown as new.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/NoteText.h"
#include "Editor/PredictedResult.h"
#include "Editor/Strings.h"
#include "tests/Catch.h"

#include "Modal/Tuning.h"

#include <cmath>

namespace
{
using plugin::Parameter;

const juce::KeyPress undo ('z', juce::ModifierKeys::ctrlModifier, 0);

/** Every change that the table shows; "name change" each. */
juce::StringArray changes (TestWindow& window)
{
    return fromMessageThread (
        [&]
        {
            juce::StringArray found;
            for (const auto& line : editor::predictedResult (window.view().keeper().scene(), {}))
                if (line.change.isNotEmpty() && line.change != juce::String::fromUTF8 (editor::strings::same))
                    found.add (line.name + " " + line.change);
            return found;
        });
}

const editor::Scene& sceneOf (TestWindow& window)
{
    return window.view().keeper().scene();
}

/** A test's own seven: it is not the model that is checked here. */
modal::Prediction predictionOf (double drumNote)
{
    modal::Prediction prediction;
    prediction.drumNote = drumNote;
    prediction.sustain = 1.0;
    return prediction;
}

} // namespace

TEST_CASE ("A drum that was just kept as A shows no change from A")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    REQUIRE (window.settle());
    REQUIRE (sceneOf (window).playedBefore != nullptr);
    CHECK (changes (window).joinIntoString ("; ") == "");

    // And after going away and coming back.
    window.enter (window.view().ladderView().gapHandle(), "M3");
    REQUIRE (window.settle());
    CHECK (changes (window).size() > 3);
    window.click (*window.buttonNamed (editor::strings::keptName ("A")));
    REQUIRE (window.settle());
    CHECK (changes (window).joinIntoString ("; ") == "");
}

TEST_CASE ("A change has an arrow only if it exceeds the uncertainty")
{
    editor::Scene scene;
    const auto changeTo = [&] (double hertz)
    {
        scene.now = std::make_shared<const modal::Prediction> (predictionOf (hertz));
        return editor::predictedResult (scene, {}).front().change;
    };
    scene.before = std::make_shared<const modal::Prediction> (predictionOf (200.0));
    CHECK (changeTo (200.0) == juce::String::fromUTF8 (editor::strings::same));
    CHECK (changeTo (200.0 * std::exp2 (40.0 / 1200.0)) == "+40 c");
    CHECK (changeTo (200.0 * std::exp2 (90.0 / 1200.0)) == juce::String::fromUTF8 ("\xe2\x96\xb2 90 c"));
    CHECK (changeTo (200.0 * std::exp2 (-90.0 / 1200.0)) == juce::String::fromUTF8 ("\xe2\x96\xbc 90 c"));
}

TEST_CASE ("A drag stops at the yield strength of the head, with a message until the next change")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto& ladder = window.view().ladderView();
    auto& resonant = ladder.resonantHandle();
    const double before = window.plain (Parameter::interval);
    const auto drum = window.processor().solvedDrum()->request.drum;
    const double highest = modal::tapNoteRange (drum, modal::HeadSide::resonant).highest;

    window.drag (resonant, { 20.0f, 16.0f }, { 0.0f, -2000.0f }, juce::ModifierKeys (juce::ModifierKeys::shiftModifier));
    REQUIRE (window.settle());
    CHECK (window.processor().solvedDrum()->refusal.empty());
    const double reached = window.prediction().resonant.tapNote;
    CHECK (reached <= highest);
    CHECK (modal::centsBetween (reached, highest) < 3.0);
    CHECK (window.hint().contains ("the range is"));
    // The tag and the table tell the same.
    CHECK (editor::hertzOfMidi (fromMessageThread ([&] { return resonant.binding().get(); }), {}) ==
           Approx (reached).epsilon (1.0e-4));

    window.press (undo);
    REQUIRE (window.settle());
    CHECK (window.plain (Parameter::interval) == Approx (before).margin (0.011));
    CHECK (waitUntil ([&] { return ! window.hint().contains ("the range is"); }));

    // Typed, it is not taken at all.
    window.enter (resonant, "C7");
    CHECK (window.plain (Parameter::interval) == Approx (before).margin (0.011));
    CHECK (window.hint().contains ("the range is"));
    window.enter (ladder.gapHandle(), "24 st");
    CHECK (window.plain (Parameter::interval) == Approx (before).margin (0.011));
}

TEST_CASE ("A note is dragged by semitones, with Shift by cents")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto& ladder = window.view().ladderView();
    const double before = window.plain (Parameter::batterNote);
    const float semitone = fromMessageThread ([&] { return ladder.scaleOfPitch().pixelsPerSemitone(); });
    window.drag (ladder.batterHandle(), { 20.0f, 16.0f }, { 0.0f, 1.3f * semitone });
    CHECK (window.plain (Parameter::batterNote) == Approx (before - 1.0).margin (0.011));
    REQUIRE (window.settle()); // the tag has followed
    window.drag (ladder.batterHandle(), { 20.0f, 16.0f }, { 0.0f, 0.6f * semitone },
                 juce::ModifierKeys (juce::ModifierKeys::shiftModifier));
    CHECK (window.plain (Parameter::batterNote) < before - 1.3);
    CHECK (window.plain (Parameter::batterNote) > before - 1.9);
}

TEST_CASE ("An interval between two named ones shows its distance from the nearer")
{
    CHECK (editor::intervalName (5.0) == "perfect fourth");
    CHECK (editor::intervalName (1.61) == juce::String::fromUTF8 ("major second \xe2\x88\x92"
                                                                  "39 c"));
    CHECK (editor::intervalName (-1.0) == "minor second below");
    CHECK (editor::intervalName (-0.49) == "between unison and minor second below");
}

TEST_CASE ("The drum's name follows undo and is marked when the drum has changed")
{
    TestWindow window;
    REQUIRE (window.settle());
    const auto shown = [&] { return fromMessageThread ([&] { return window.view().headerBar().drumShown(); }); };
    const auto unnamed = shown();
    CHECK (unnamed.contains ("maple"));
    onMessageThread ([&] { window.processor().loadPreset (window.processor().presets().entries().front()); });
    REQUIRE (window.settle());
    const auto loaded = fromMessageThread ([&] { return window.processor().presetName(); });
    REQUIRE (loaded.isNotEmpty());
    CHECK (waitUntil ([&] { return shown() == loaded; }));
    window.enter (window.view().ladderView().gapHandle(), "P8");
    CHECK (waitUntil ([&] { return shown() == loaded + " " + editor::strings::changed; }));

    // A song that is loaded again knows it too.
    const auto song = fromMessageThread ([&] { return window.processor().state(); });
    onMessageThread ([&] { window.processor().setState (song); });
    CHECK (fromMessageThread ([&] { return window.processor().isChangedSinceNamed(); }));

    window.press (undo);
    CHECK (waitUntil ([&] { return shown() == loaded; }));
    window.press (undo);
    CHECK (waitUntil ([&] { return shown() == unnamed; }));
}

TEST_CASE ("A sweep through the intervals leaves the comparison as it was")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.enter (window.view().ladderView().gapHandle(), "M3");
    REQUIRE (window.settle());
    const auto before = fromMessageThread ([&] { return sceneOf (window).before; });
    REQUIRE (before != nullptr);
    window.click (*window.buttonNamed (editor::strings::sweep.name));
    REQUIRE (waitUntil ([&] { return window.view().auditionBar().sweep().interval() >= 2; }));
    CHECK (waitUntil ([&] { return sceneOf (window).before != nullptr && sceneOf (window).before != before; }));
    window.press (juce::KeyPress (juce::KeyPress::escapeKey));
    REQUIRE (window.settle());
    CHECK (fromMessageThread ([&] { return sceneOf (window).before; }) == before);
}

TEST_CASE ("A strike on the former tuning is marked")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto& spectrum = window.view().spectrumView();
    window.focus (window.view());
    const auto isFormer = [&] { return fromMessageThread ([&] { return spectrum.isOfFormerDrum(); }); };
    window.press (juce::KeyPress ('2', {}, '2'));
    REQUIRE (waitUntil ([&] { return window.processor().lastStrike().recordedSamples() > 12000; }));
    REQUIRE (waitUntil ([&] { return ! window.view().keeper().isBusy(); }));
    CHECK_FALSE (isFormer());
    window.enter (window.view().ladderView().gapHandle(), "P5");
    REQUIRE (window.settle());
    CHECK (isFormer());
    window.picture ("struck-before");
    window.focus (window.view());
    window.press (juce::KeyPress ('2', {}, '2'));
    CHECK (waitUntil ([&] { return ! isFormer(); }));
}

TEST_CASE ("Without audio a stroke shows why it is silent")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.focus (window.view());
    window.setPlayed (false);
    REQUIRE (waitUntil ([&] { return window.view().spectrumView().advice() == editor::strings::hostIsStill; }));
    const auto strokes = window.processor().lastStrike().strokeCount();
    window.press (juce::KeyPress ('1', {}, '1'));
    CHECK (window.hint() == editor::strings::hostIsStill);
    window.setPlayed (true);
    REQUIRE (waitUntil ([&] { return window.view().spectrumView().advice() == editor::strings::noSpectrumYet; }));
    CHECK (window.processor().lastStrike().strokeCount() == strokes); // nothing was saved up
    window.press (juce::KeyPress ('1', {}, '1'));
    CHECK (waitUntil ([&] { return window.processor().lastStrike().strokeCount() == strokes + 1; }));
}

TEST_CASE ("A drum with one head shows nothing about a second")
{
    TestWindow window;
    REQUIRE (window.settle());
    onMessageThread ([&] { window.processor().parameter (Parameter::bottom).setPlainValue (2.0); });
    REQUIRE (window.settle());
    const auto& now = *sceneOf (window).now;
    CHECK (editor::strings::sharing (now, now.modes.front()).isEmpty());
    for (const auto& line : fromMessageThread ([&] { return editor::predictedResult (sceneOf (window), {}); }))
    {
        INFO (line.name);
        CHECK_FALSE (line.name.containsIgnoreCase ("resonant"));
        CHECK_FALSE (line.name.containsIgnoreCase ("wires"));
    }
    auto& setUp = window.view().setUpView();
    CHECK (waitUntil ([&] { return ! setUp.rowOf (Parameter::resonantFilm)->isEnabled(); }));
    CHECK (fromMessageThread ([&] { return setUp.rowOf (Parameter::batterFilm)->isEnabled(); }));
    window.picture ("one-head");
    window.setPage (editor::Page::setUp);
    window.picture ("one-head-set-up");
}

TEST_CASE ("The hint line explains the control with the keyboard focus")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.hover (window.view().auditionBar(), { 20.0f, 20.0f });
    window.focus (window.view().ladderView().resonantHandle());
    CHECK (waitUntil ([&] { return window.hint().startsWith (editor::strings::resonantNote().name); }));
}
