// Kept tunings: kept, compared, loudness-matched and blind; and the drum note, typed and dragged.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/LoudnessMatch.h"
#include "Editor/NoteText.h"
#include "Editor/Strings.h"
#include "Modal/pitch/Interval.h"
#include "tests/Catch.h"

#include <set>

using plugin::LiveSound;
using plugin::Parameter;

namespace
{

juce::Button& tuning (TestWindow& window, const juce::String& name)
{
    auto* button = window.buttonNamed (editor::strings::keptName (name));
    REQUIRE (button != nullptr);
    return *button;
}

/** Keeps a fourth as A, a fifth as B, a major third as C. */
void keepThree (TestWindow& window)
{
    for (const auto* interval : { "P4", "P5", "M3" })
    {
        window.enter (window.view().ladderView().gapHandle(), interval);
        REQUIRE (window.settle());
        window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    }
    REQUIRE (window.settle());
}

} // namespace

TEST_CASE ("Any kept tuning shows its change from any other")
{
    TestWindow window;
    REQUIRE (window.settle());
    keepThree (window);
    const auto tapOfResonant = [&] { return window.prediction().resonant.tapNote; };
    const auto change = [&]
    { return fromMessageThread ([&] { return window.view().resultView().changeOf (editor::strings::drumNote); }); };

    window.click (tuning (window, "B"));
    REQUIRE (window.settle());
    const double fifth = tapOfResonant(), drumOfB = window.prediction().drumNote;
    CHECK (1200.0 * std::log2 (fifth / window.prediction().batter.tapNote) == Approx (700.0).margin (2.0)); // ISO 16
    window.click (tuning (window, "C"));
    REQUIRE (window.settle());
    onMessageThread ([&] { window.view().keptBar().onCompare (LiveSound::b); });
    REQUIRE (window.settle());
    const auto cents = juce::String (juce::roundToInt (std::abs (modal::centsBetween (drumOfB, window.prediction().drumNote))));
    CHECK (change().contains (cents));

    // From itself there is none.
    onMessageThread ([&] { window.view().keptBar().onCompare (LiveSound::c); });
    REQUIRE (window.settle());
    CHECK (change() == juce::String::fromUTF8 (editor::strings::same));
}

TEST_CASE ("A blind comparison hides names and figures until one is chosen")
{
    TestWindow window;
    REQUIRE (window.settle());
    keepThree (window);
    for (const auto* theme : { &editor::Theme::light(), &editor::Theme::dark() })
    {
        window.setTheme (*theme);
        for (const auto& [width, height] : { std::pair{ 800, 500 }, std::pair{ 1200, 740 } })
        {
            window.resize (width, height);
            window.picture ("kept-" + juce::String (width) + (theme->isDark ? "-dark" : "-light"), width == 800 ? 2.0f : 1.0f);
        }
    }
    window.click (*window.buttonNamed (editor::strings::blind.name));
    CHECK_FALSE (fromMessageThread ([&] { return window.view().ladderView().isShowing(); }));
    CHECK_FALSE (fromMessageThread ([&] { return window.view().resultView().isShowing(); }));
    CHECK_FALSE (fromMessageThread ([&] { return window.view().headerBar().isShowing(); }));
    CHECK (window.buttonNamed (editor::strings::keptName ("A")) == nullptr);

    std::set<int> heard;
    for (const auto* number : { "1", "2", "3" })
    {
        window.click (tuning (window, number));
        REQUIRE (window.settle());
        heard.insert (juce::roundToInt (window.plain (Parameter::interval)));
        CHECK (tuning (window, number).getTooltip() == editor::strings::blindTip);
    }
    CHECK (heard == std::set<int>{ 4, 5, 7 });
    window.picture ("blind");

    const auto chosen = window.plain (Parameter::interval);
    window.click (*window.buttonNamed (editor::strings::chooseTuning.name));
    CHECK (fromMessageThread ([&] { return window.view().ladderView().isShowing(); }));
    const auto expected = juce::String (chosen == 5.0 ? "A" : chosen == 7.0 ? "B" : "C");
    CHECK (window.hint().contains (expected + ":"));
}

TEST_CASE ("Matched tunings have one loudness")
{
    TestWindow window;
    REQUIRE (window.settle());
    keepThree (window);
    window.click (*window.buttonNamed (editor::strings::matchLoudness.name));
    REQUIRE (window.settle());
    std::vector<double> loudness;
    for (const auto* letter : { "A", "B", "C" })
    {
        window.click (tuning (window, letter));
        REQUIRE (window.settle());
        REQUIRE (waitUntil ([&] { return ! window.view().keeper().isBusy(); }));
        loudness.push_back (window.plain (Parameter::gain) +
                            editor::loudnessOf (window.processor().solvedDrum()->model, window.processor().effectiveValues()));
    }
    CHECK (loudness[1] == Approx (loudness[0]).margin (0.1));
    CHECK (loudness[2] == Approx (loudness[0]).margin (0.1));
}

TEST_CASE ("The drum note is typed and dragged; the interval stays")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto& handle = window.view().ladderView().drumNoteHandle();
    const double interval = window.prediction().interval.semitones;

    // F3 is 174.61 Hz (ISO 16).
    window.enter (handle, "F3");
    REQUIRE (window.settle());
    CHECK (window.prediction().drumNote == Approx (174.61).epsilon (1.0e-3));
    CHECK (window.prediction().interval.semitones == Approx (interval).margin (0.02));

    const float semitone = fromMessageThread ([&] { return window.view().ladderView().scaleOfPitch().pixelsPerSemitone(); });
    window.drag (handle, { 20.0f, 16.0f }, { 0.0f, -2.0f * semitone });
    REQUIRE (window.settle());
    CHECK (window.prediction().drumNote == Approx (196.0).epsilon (1.0e-3)); // G3
    window.press (juce::KeyPress ('z', juce::ModifierKeys::ctrlModifier, 0));
    REQUIRE (window.settle());
    CHECK (window.prediction().drumNote == Approx (174.61).epsilon (1.0e-3));

    // Out of reach: the message says what can be had, and nothing moves.
    window.enter (handle, "C7");
    REQUIRE (window.settle());
    CHECK (window.prediction().drumNote == Approx (174.61).epsilon (1.0e-3));
    CHECK (window.hint().isNotEmpty());
}
