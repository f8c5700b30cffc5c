// A lug check of a real head: the window shows the result of each tap and applies it to the drum.
#include "TestWindow.h"

#include "MessageThread.h"
#include "SyntheticDrum.h"

#include "Editor/NoteText.h"
#include "Editor/Strings.h"
#include "tests/Catch.h"

#include "Wording/AnswerText.h"

#include "Modal/Tuning.h"
#include "Modal/pitch/Note.h"

#include <cmath>

namespace
{
using plugin::Parameter;

constexpr double tension = 2600.0; // N/m
constexpr int lugs = 6;
} // namespace

TEST_CASE ("A tech checks the lugs of the batter and applies the result to the drum")
{
    TestWindow window;
    onMessageThread ([&] { window.processor().parameter (Parameter::lugs).setPlainValue (lugs); });
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    auto& listen = window.view().listenView();
    const auto words = [&] { return fromMessageThread ([&] { return listen.advice(); }); };
    CHECK (words() == editor::strings::howToListen);
    CHECK_FALSE (fromMessageThread ([&] { return listen.applyButton().isEnabled(); }));

    // The real drum: the one that is set, drawn otherwise, one lug a little low.
    synthetic::LugCheck check{ .drum = plugin::requestOf (window.processor().effectiveValues()).drum,
                               .tension = tension,
                               .between = 1.1 };
    const double semitone = modal::semitoneTension (check.drum, modal::HeadSide::batter, tension);
    const double share = std::pow (1.0 + semitone, -0.3) - 1.0;
    check.lugs.assign (lugs, -share / lugs);
    check.lugs[2] += share;
    const double truth = modal::tapNote (check.drum, modal::HeadSide::batter, tension);
    const auto recording = synthetic::record (check, { .signalToNoise = 30.0 });

    // A bad first tap: hit twice.
    synthetic::Strike strike{ .drum = check.drum, .tensions = { tension, 2000.0 } };
    strike.wires.on = false;
    strike.count = 2;
    strike.between = 0.09;
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (1); }));
    REQUIRE (window.playToInput (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }).samples));
    CHECK (waitUntil ([&] { return listen.advice().contains ("hit twice"); }));
    CHECK (fromMessageThread ([&] { return listen.task(); }) == editor::strings::tapBeside (1));
    window.picture ("listen-hit-twice");

    // Half of the lug check; the last tap is deleted.
    constexpr double rate = 48000.0, half = 3.9; // s: three taps have rung out
    const auto middle = recording.samples.begin() + static_cast<std::ptrdiff_t> (half * rate);
    window.click (listen.startButton()); // stop
    REQUIRE (waitUntil ([&] { return ! window.processor().listener().isListening(); }));
    window.click (listen.startButton()); // and again
    REQUIRE (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (1); }));
    REQUIRE (window.playToInput ({ recording.samples.begin(), middle }));
    INFO (words()); // why a tap was refused, if one was
    REQUIRE (waitUntil ([&] { return window.processor().listener().report()->heardCount() == 3; }));
    REQUIRE (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (4); }));
    CHECK (fromMessageThread ([&] { return listen.lug (3).getDescription(); }).contains ("cents"));
    CHECK (fromMessageThread ([&] { return listen.lug (4).getDescription(); }).isEmpty());
    window.picture ("listen-half");
    window.click (listen.deleteTapButton());
    REQUIRE (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (3); }));

    // The whole lug check.
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return ! window.processor().listener().isListening(); }));
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (1); }));
    REQUIRE (window.playToInput (recording.samples));
    REQUIRE (waitUntil ([&] { return listen.applyButton().isEnabled(); }));
    CHECK (fromMessageThread ([&] { return listen.result(); }).contains ("N/m"));
    // The answer is the sentence that the program writes for the same fit.
    const auto report = window.processor().listener().report();
    CHECK (fromMessageThread ([&] { return listen.task(); }) ==
           editor::withNoteSigns (wording::answer (*report->head, modal::HeadSide::batter, check.drum)));
    CHECK (fromMessageThread ([&] { return listen.task(); }).contains (" opposite"));
    // The partials of the last tap stand beside the spectrogram; the tap note is among them.
    const auto labels = fromMessageThread ([&] { return listen.spectrogramView().labels(); });
    CHECK (labels.size() >= 2);
    CHECK (labels.joinIntoString (" ").contains (editor::noteName (report->notes.back()->value, {})));
    window.picture ("listen-done");

    const double before = window.plain (Parameter::batterNote);
    window.click (listen.applyButton());
    CHECK (window.hint() == editor::strings::applied);
    REQUIRE (window.settle());
    CHECK (std::abs (modal::centsBetween (truth, window.prediction().batter.tapNote)) < 3.0);
    // A head cannot tell a lug from the one opposite (README); of the pair it knows the sum.
    CHECK (window.plain (plugin::batterLug (2)) + window.plain (plugin::batterLug (5)) < -5.0);
    window.resize (800, 500);
    window.picture ("listen-done-small");
    window.setTheme (editor::Theme::dark());
    window.picture ("listen-done-small-dark");

    window.press (juce::KeyPress ('z', juce::ModifierKeys::ctrlModifier, 0));
    CHECK (waitUntil ([&] { return std::abs (window.plain (Parameter::batterNote) - before) < 0.011; }));
    CHECK (std::abs (window.plain (plugin::batterLug (2))) < 0.06);

    // A lug is chosen while stopped; a different number of lugs ends the lug check.
    const auto isListening = [&] { return window.processor().listener().isListening(); };
    window.click (listen.lug (4));
    CHECK (waitUntil ([&] { return listen.task() == editor::strings::tapBeside (4); }));
    CHECK_FALSE (isListening());
    CHECK (fromMessageThread ([&] { return listen.startButton().getButtonText(); }) == editor::strings::goOnListening);
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return isListening() && listen.task() == editor::strings::tapBeside (4); }));
    CHECK (waitUntil ([&] { return window.view().headerBar().showsListening(); }));
    onMessageThread ([&] { window.processor().parameter (Parameter::lugs).setPlainValue (lugs + 2); });
    CHECK (waitUntil ([&] { return ! isListening() && window.processor().listener().report()->notes.empty(); }));
    CHECK (waitUntil ([&] { return ! window.view().headerBar().showsListening(); }));
}

TEST_CASE ("A tech strikes the finished drum, adds the note of a head, and sets the drum to the answer")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    auto& listen = window.view().listenView();
    const auto task = [&] { return fromMessageThread ([&] { return listen.task(); }); };
    window.click (listen.strikesButton());
    CHECK (fromMessageThread ([&] { return listen.advice(); }) == editor::strings::howToHearStrikes);

    synthetic::Strike strike{ .drum = plugin::requestOf (window.processor().effectiveValues()).drum,
                              .tensions = { tension, 1900.0 } };
    strike.wires.on = false;
    strike.position = 0.5;
    const double batter = modal::tapNote (strike.drum, modal::HeadSide::batter, tension),
                 resonant = modal::tapNote (strike.drum, modal::HeadSide::resonant, 1900.0);
    window.click (listen.startButton());
    REQUIRE (waitUntil ([&] { return task() == editor::strings::strikeTheDrum; }));
    REQUIRE (window.playToInput (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }).samples));
    REQUIRE (waitUntil ([&] { return listen.applyButton().isEnabled(); }));
    CHECK (task().contains ("batter"));
    CHECK (fromMessageThread ([&] { return listen.answersView().button (0).getTitle(); }).contains ("batter A"));
    CHECK (fromMessageThread ([&] { return listen.likeButton().isEnabled(); }));
    window.picture ("listen-strikes");

    // A note that cannot be read is refused; one that can narrows the answer.
    auto& field = listen.knownView().resonantField();
    onMessageThread ([&] { field.setText ("rhubarb"); });
    CHECK (window.hint().contains ("Resonant note"));
    const auto without = window.processor().listener().report()->drum;
    onMessageThread ([&] { field.setText (editor::noteWithCents (resonant, {})); });
    REQUIRE (waitUntil ([&] { return window.processor().listener().report()->drum != without; }));
    const auto& with = window.processor().listener().report()->drum->answers.front();
    CHECK (with.resonant.tapNote.error < without->answers.front().resonant.tapNote.error);

    window.click (listen.startButton()); // stop
    REQUIRE (waitUntil ([&] { return ! window.processor().listener().isListening(); }));
    window.click (listen.applyButton());
    REQUIRE (window.settle());
    CHECK (std::abs (modal::centsBetween (batter, window.prediction().batter.tapNote)) < 20.0);
    CHECK (std::abs (modal::centsBetween (resonant, window.prediction().resonant.tapNote)) < 20.0);
    // The drum that was heard is now the one that is set; a higher note then needs turns up.
    REQUIRE (waitUntil ([&] { return listen.rodsText() == editor::strings::nothingToTurn; }));
    onMessageThread (
        [&]
        {
            auto& note = window.processor().parameter (Parameter::batterNote);
            note.setPlainValue (note.plainValue() + 2.0);
        });
    REQUIRE (waitUntil ([&] { return listen.rodsText().contains ("up"); }));
    window.resize (800, 500);
    window.picture ("listen-strikes-small");
    window.picture ("listen-strikes-small", 2.0f);
    window.setTheme (editor::Theme::dark());
    window.picture ("listen-strikes-small-dark");
}

TEST_CASE ("The spectrogram runs with the page, holds when paused, and stops with it")
{
    TestWindow window;
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    auto& spectrogram = window.view().listenView().spectrogramView();
    const auto shown = [&] { return fromMessageThread ([&] { return spectrogram.columnsShown(); }); };
    const auto made = [&] { return window.processor().listener().columnsFrom (0).end(); };
    REQUIRE (waitUntil ([&] { return shown() > 10; }));

    window.click (spectrogram.pauseButton());
    const int held = shown();
    const auto before = made();
    REQUIRE (window.playToInput (std::vector<double> (48000, 0.1)));
    CHECK (shown() == held);
    CHECK (made() <= before + 10); // of some 100: no view shows them, so none is made but from what was already read
    window.click (spectrogram.pauseButton());
    REQUIRE (waitUntil ([&] { return shown() > held; }));

    window.click (*window.buttonNamed (editor::strings::headsPage.name));
    REQUIRE (waitUntil ([&] { return fromMessageThread ([&] { return ! spectrogram.isShowing(); }); }));
    REQUIRE (window.playToInput (std::vector<double> (4800, 0.1)));
    const auto left = made();
    REQUIRE (window.playToInput (std::vector<double> (48000, 0.1)));
    CHECK (made() <= left + 10);
}

TEST_CASE ("Without an input the page says what to do")
{
    TestWindow window;
    onMessageThread ([&] { window.processor().setPlayConfigDetails (0, 2, 48000.0, 480); });
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    onMessageThread ([&] { window.view().listenView().refresh(); });
    auto& listen = window.view().listenView();
    CHECK (fromMessageThread ([&] { return listen.task(); }) == editor::strings::noInput);
    CHECK_FALSE (fromMessageThread ([&] { return listen.startButton().isEnabled(); }));
}

TEST_CASE ("A stroke from a MIDI keyboard moves the heads as it was played, not as the window's last")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.press (juce::KeyPress ('1', {}, '1')); // the window's own: at the centre
    REQUIRE (window.awaitMotion());
    const auto strokes = window.processor().lastStrike().strokeCount();
    window.playKey (26); // near the edge
    REQUIRE (waitUntil ([&] { return window.processor().lastStrike().strokeCount() == strokes + 1; }));
    const auto played = window.processor().lastStrike().stroke();
    CHECK (played.position > 0.6);
    CHECK (waitUntil (
        [&] {
            return window.view().animator().stroke() != nullptr && window.view().animator().stroke()->position == played.position;
        }));
}
