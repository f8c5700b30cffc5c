// A producer, a teacher and a tech each work from the opened window to a result, with mouse and keyboard only.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"
#include "tests/Catch.h"

#include <cmath>

namespace
{
using plugin::Parameter;

const juce::KeyPress down (juce::KeyPress::downKey);

juce::String figure (TestWindow& window, const char* name)
{
    return fromMessageThread ([&] { return window.view().resultView().valueOf (name); });
}

juce::String change (TestWindow& window, const char* name)
{
    return fromMessageThread ([&] { return window.view().resultView().changeOf (name); });
}

/** Distance in cents from a frequency to the nearest note of A minor's own chord: A, C, E in equal temperament, A4 = 440 Hz
    (ISO 16). */
double centsFromAMinor (double hertz)
{
    const double midi = 69.0 + 12.0 * std::log2 (hertz / 440.0);
    double nearest = 1.0e9;
    for (const int pitchClass : { 9, 0, 4 })
    {
        const double away = std::remainder (midi - pitchClass, 12.0);
        nearest = std::min (nearest, 100.0 * std::abs (away));
    }
    return nearest;
}

} // namespace

TEST_CASE ("A producer picks a tuning for a song in A minor by ear")
{
    TestWindow window;
    REQUIRE (window.settle());

    // Hear what is there, and keep it for comparison.
    auto& batter = window.view().batterView();
    window.click (batter, fromMessageThread ([&] { return batter.head().getCentre() + juce::Point<float> (12.0f, 6.0f); }));
    REQUIRE (waitUntil ([&] { return window.processor().lastStrike().strokeCount() == 1; }));
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    REQUIRE (window.processor().hasSnapshot (plugin::LiveSound::a));

    // Every interval, until the ear says yes at a major third; Escape ends it and the tuning is as it was.
    window.click (*window.buttonNamed (editor::strings::sweep.name));
    REQUIRE (waitUntil ([&] { return window.view().auditionBar().sweep().interval() >= 4; }));
    CHECK (waitUntil ([&] { return window.processor().lastStrike().strokeCount() > 1; }));
    window.press (juce::KeyPress (juce::KeyPress::escapeKey));
    CHECK (waitUntil ([&] { return ! window.view().auditionBar().sweep().isRunning(); }));
    CHECK (window.plain (Parameter::interval) == Approx (5.0).margin (0.01));

    // A major third, then both heads together up or down by semitones until the drum speaks a note of the chord.
    auto& ladder = window.view().ladderView();
    window.enter (ladder.gapHandle(), "M3");
    REQUIRE (window.settle());
    CHECK (window.prediction().interval.semitones == Approx (4.0).margin (0.01));
    for (int tries = 0; tries < 12 && centsFromAMinor (window.prediction().drumNote) > 50.0; ++tries)
    {
        // The gap, dragged as a whole by a semitone.
        const float semitone = fromMessageThread ([&] { return ladder.scaleOfPitch().pixelsPerSemitone(); });
        const auto middle = fromMessageThread ([&] { return ladder.gapHandle().getLocalBounds().toFloat().getCentre(); });
        window.drag (ladder.gapHandle(), middle, { 0.0f, -semitone });
        REQUIRE (window.settle());
    }
    CHECK (centsFromAMinor (window.prediction().drumNote) <= 50.0);
    CHECK (window.prediction().interval.semitones == Approx (4.0).margin (0.01));
    CHECK (change (window, editor::strings::drumNote).isNotEmpty());
    window.picture ("producer");

    // Back and forth: B is the new one, A the old one.
    const double chosen = window.plain (Parameter::batterNote);
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    window.click (*window.buttonNamed (editor::strings::keptName ("A")));
    CHECK (waitUntil ([&] { return std::abs (window.plain (Parameter::interval) - 5.0) < 0.01; }));
    window.click (*window.buttonNamed (editor::strings::keptName ("B")));
    CHECK (waitUntil ([&] { return std::abs (window.plain (Parameter::interval) - 4.0) < 0.01; }));
    CHECK (window.plain (Parameter::batterNote) == Approx (chosen).margin (0.01));
}

TEST_CASE ("A teacher widens the interval, moves each head alone, and shows what changed")
{
    TestWindow window;
    auto& ladder = window.view().ladderView();
    std::vector<modal::Prediction> steps;
    for (const auto& [typed, semitones] : { std::pair{ "minor third", 3.0 }, std::pair{ "M6", 9.0 } })
    {
        INFO (typed);
        window.enter (ladder.gapHandle(), typed);
        REQUIRE (window.settle());
        steps.push_back (window.prediction());
        CHECK (steps.back().interval.semitones == Approx (semitones).margin (0.01));
        window.picture ("teacher-" + juce::String (semitones, 0).replace (".0", ""));
    }
    CHECK (steps[1].drumNote > steps[0].drumNote);

    // The resonant head alone, down a semitone from the keyboard: the batter stays.
    window.focus (ladder.resonantHandle());
    window.press (down);
    REQUIRE (window.settle());
    steps.push_back (window.prediction());
    CHECK (steps[2].interval.semitones == Approx (8.0).margin (0.01));
    CHECK (steps[2].batter.tapNote == Approx (steps[1].batter.tapNote).epsilon (1.0e-4));

    // The drum note follows, but by less than the head that moved, since both heads make it. The window shows the change.
    const double cents = modal::centsBetween (steps[1].drumNote, steps[2].drumNote);
    CHECK (cents < -5.0);
    CHECK (cents > -100.0);
    const auto shown = change (window, editor::strings::drumNote);
    CHECK (shown.endsWith (juce::String (juce::roundToInt (-cents)) + " c"));
    CHECK_FALSE (shown.startsWith ("+"));
    const auto before = fromMessageThread ([&] { return window.view().keeper().scene().before; });
    REQUIRE (before != nullptr);
    CHECK (before->interval.semitones == Approx (9.0).margin (0.01));

    // The batter alone, dragged up a tone: the resonant head stays.
    const float semitone = fromMessageThread ([&] { return ladder.scaleOfPitch().pixelsPerSemitone(); });
    const double held = steps[2].resonant.tapNote;
    window.drag (ladder.batterHandle(), { 20.0f, 16.0f }, { 0.0f, -2.0f * semitone });
    REQUIRE (window.settle());
    CHECK (window.prediction().interval.semitones == Approx (6.0).margin (0.01));
    CHECK (window.prediction().resonant.tapNote == Approx (held).epsilon (1.0e-3));

    // One press of undo reverts the whole drag; redo repeats it.
    const juce::KeyPress undo ('z', juce::ModifierKeys::ctrlModifier, 0), redo ('y', juce::ModifierKeys::ctrlModifier, 0);
    window.press (undo);
    CHECK (waitUntil ([&] { return std::abs (window.plain (Parameter::interval) - 8.0) < 0.011; }));
    window.press (redo);
    CHECK (waitUntil ([&] { return std::abs (window.plain (Parameter::interval) - 6.0) < 0.011; }));
    window.picture ("teacher-batter-up");
}

TEST_CASE ("A tech enters the drum and reads tension and change per head")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::setUpPage.name));
    auto& setUp = window.view().setUpView();
    const auto enter = [&] (Parameter which, const char* typed)
    { window.enter (*fromMessageThread ([&] { return setUp.rowOf (which); }), typed); };
    enter (Parameter::diameter, "13 in");
    enter (Parameter::depth, "165 mm");
    enter (Parameter::lugs, "8");
    enter (Parameter::shellMaterial, "aluminium");
    enter (Parameter::batterFilm, "10 mil");
    enter (Parameter::batterNote, "A3");
    enter (Parameter::interval, "P4");
    REQUIRE (window.settle());
    CHECK (window.plain (Parameter::diameter) == Approx (13.0));
    CHECK (window.plain (Parameter::depth) == Approx (165.0 / 25.4).epsilon (1.0e-4));
    CHECK (window.prediction().drum.shell.material == "aluminium");
    CHECK (window.prediction().batter.tapNote == Approx (220.0).epsilon (2.0e-4)); // A3, ISO 16

    // The table shows the prediction.
    const auto first = window.prediction();
    CHECK (figure (window, editor::strings::batterTension).removeCharacters (juce::String::fromUTF8 ("\xe2\x80\x89")) ==
           juce::String (juce::roundToInt (first.batter.tension)) + " N/m");
    CHECK (figure (window, editor::strings::resonantTension).removeCharacters (juce::String::fromUTF8 ("\xe2\x80\x89")) ==
           juce::String (juce::roundToInt (first.resonant.tension)) + " N/m");
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    REQUIRE (window.settle());

    // The next night's tuning: the batter up a semitone. Its tension goes up by what the model says a semitone takes; the
    // resonant head, a fourth above still, likewise.
    enter (Parameter::batterNote, "A#3");
    CHECK (window.plain (Parameter::interval) == Approx (4.0).margin (0.011)); // the resonant head stayed
    enter (Parameter::interval, "P4");
    REQUIRE (window.settle());
    const auto second = window.prediction();
    const auto rise = [] (double from, double to) { return juce::String (juce::roundToInt (100.0 * (to / from - 1.0))) + " %"; };
    CHECK (change (window, editor::strings::batterTension).endsWith (rise (first.batter.tension, second.batter.tension)));
    CHECK (change (window, editor::strings::resonantTension).endsWith (rise (first.resonant.tension, second.resonant.tension)));
    CHECK (second.batter.tension > 1.12 * first.batter.tension); // a semitone is 12 % in a vacuum (2^(1/6)), more with air
    window.picture ("tech");

    // A wrong entry changes nothing and is explained.
    enter (Parameter::diameter, "90 in");
    CHECK (window.plain (Parameter::diameter) == Approx (13.0));
    CHECK (window.hint().containsIgnoreCase ("diameter"));

    // A lug that was let down splits the pairs, which the modes then show.
    window.click (*window.buttonNamed (editor::strings::headsPage.name));
    auto& batter = window.view().batterView();
    window.drag (batter.lug (3), { 14.0f, 17.0f }, { 0.0f, 60.0f });
    REQUIRE (window.settle());
    CHECK (window.plain (plugin::batterLug (2)) < -30.0);
    CHECK (! window.prediction().isUniform);
    const auto uneven = window.prediction();
    const auto& pair = uneven.rocking;
    REQUIRE (pair.lower >= 0);
    window.picture ("tech-uneven");
    window.press (juce::KeyPress ('z', juce::ModifierKeys::ctrlModifier, 0));
    CHECK (waitUntil ([&] { return std::abs (window.plain (plugin::batterLug (2))) < 0.01; }));
}
