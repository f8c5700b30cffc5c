// Three users find a tuning on the map page, with mouse and keyboard only.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/NoteText.h"
#include "Editor/Strings.h"
#include "Finding/PlayedMap.h"
#include "Plugin/DrumRequest.h"
#include "tests/Catch.h"

#include <cmath>

namespace
{
using finding::Figure;
using plugin::Parameter;

double cents (double from, double to)
{
    return 1200.0 * std::log2 (to / from);
}

void wish (TestWindow& window, Figure figure, const juce::String& text)
{
    auto& entry = window.view().mapView().field (figure).entryField();
    window.focus (entry);
    window.typeText (text);
    window.press (juce::KeyPress (juce::KeyPress::returnKey));
    REQUIRE (window.awaitMap());
}

juce::Point<float> pointOf (TestWindow& window, editor::TuningSpot spot)
{
    return fromMessageThread ([&] { return window.view().mapView().mapPlot().pointOf (spot); });
}

std::size_t foundCount (TestWindow& window)
{
    return fromMessageThread ([&] { return window.view().mapView().keeper().found().list.size(); });
}

} // namespace

TEST_CASE ("A producer clicks the map and hears the tuning, then follows a drum note with Alt held")
{
    TestWindow window;
    REQUIRE (window.openMap());
    auto& plot = window.view().mapView().mapPlot();
    const auto strokes = window.processor().lastStrike().strokeCount();

    window.click (plot, pointOf (window, { 57.0, 4.0 })); // A3, a major third
    REQUIRE (window.settle());
    CHECK (std::abs (window.prediction().batter.tapNote / 220.0 - 1.0) < 0.02);
    CHECK (window.prediction().interval.semitones == Approx (4.0).margin (0.3));
    CHECK (waitUntil ([&] { return window.processor().lastStrike().strokeCount() > strokes; }));

    // Two semitones along the contour of the drum note: the interval changes, the drum note does not.
    const auto before = window.prediction();
    const auto from = pointOf (window, { 69.0 + 12.0 * std::log2 (before.batter.tapNote / 440.0), before.interval.semitones });
    const float semitone = fromMessageThread ([&] { return plot.pointOf ({ 58.0, 0.0 }).x - plot.pointOf ({ 57.0, 0.0 }).x; });
    window.drag (plot, from, { 2.0f * semitone, 30.0f }, juce::ModifierKeys::altModifier);
    REQUIRE (window.settle());
    const auto after = window.prediction();
    CHECK (cents (before.batter.tapNote, after.batter.tapNote) == Approx (200.0).margin (40.0));
    CHECK (std::abs (cents (before.drumNote, after.drumNote)) < 6.0);
    CHECK (after.interval.semitones < before.interval.semitones - 2.0);
    window.picture ("map-producer");

    // One step of undo for the drag.
    window.press (juce::KeyPress ('z', juce::ModifierKeys::commandModifier, 'z'));
    REQUIRE (window.settle());
    CHECK (std::abs (cents (before.batter.tapNote, window.prediction().batter.tapNote)) < 1.0);

    // The song makes a wish that is shown as common practice and gives way to a typed one.
    auto& map = window.view().mapView();
    auto& key = map.keyField().entryField();
    window.focus (key);
    window.typeText ("D minor");
    window.press (juce::KeyPress (juce::KeyPress::returnKey));
    REQUIRE (window.awaitMap());
    CHECK (fromMessageThread ([&] { return map.explanation(); }).contains ("common practice, no source"));
    CHECK (fromMessageThread ([&] { return map.keeper().wishes().size(); }) == 1);
    wish (window, Figure::drumNote, "E3");
    CHECK (fromMessageThread ([&] { return map.keeper().wishes().size(); }) == 1);
    CHECK_FALSE (fromMessageThread ([&] { return map.explanation(); }).contains ("D minor"));
}

TEST_CASE ("A tech wishes for a drum note with the resonant head left alone")
{
    TestWindow window;
    REQUIRE (window.openMap());
    const double resonant = window.prediction().resonant.tapNote;
    wish (window, Figure::drumNote, "E3:F3");
    wish (window, Figure::resonantMove, "stays");
    REQUIRE (waitUntil ([&] { return foundCount (window) > 0; }));
    REQUIRE (window.awaitMap());
    window.setTheme (editor::Theme::dark());
    REQUIRE (window.awaitMap());
    window.picture ("map-tech");
    window.click (window.view().mapView().foundBar().tuningButton (0));
    REQUIRE (window.settle());
    const auto result = window.prediction();
    CHECK (std::abs (cents (resonant, result.resonant.tapNote)) < 8.0);
    // ISO 16: E3 164.8 Hz, F3 174.6 Hz.
    CHECK (result.drumNote > 164.8 * 0.995);
    CHECK (result.drumNote < 174.6 * 1.005);
}

TEST_CASE ("A teacher reads which wishes exclude each other, and what cannot be read")
{
    TestWindow window (800, 500);
    const auto presets = fromMessageThread ([&] { return window.processor().presets().entries(); });
    onMessageThread ([&] { window.processor().loadPreset (presets.front()); });
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    REQUIRE (window.openMap());
    CHECK (fromMessageThread ([&] { return window.view().mapView().mapPlot().markCount(); }) >= 2); // a preset and the kept one
    wish (window, Figure::drumNote, "D3:E3");
    wish (window, Figure::ring, ":0.2s");
    window.picture ("map-teacher", 2.0f);
    REQUIRE (waitUntil ([&] { return foundCount (window) > 1; }));
    CHECK (fromMessageThread ([&] { return window.view().mapView().explanation(); }).contains ("No tuning of this drum has"));

    wish (window, Figure::ring, "rhubarb");
    CHECK (waitUntil ([&] { return window.hint().contains ("rhubarb"); }));

    // From the keyboard: a semitone of the batter, and the same along the contour.
    wish (window, Figure::ring, "");
    window.focus (window.view().mapView().mapPlot());
    const auto before = window.prediction();
    window.press (juce::KeyPress (juce::KeyPress::rightKey, juce::ModifierKeys::altModifier, 0));
    REQUIRE (window.settle());
    const auto after = window.prediction();
    CHECK (cents (before.batter.tapNote, after.batter.tapNote) == Approx (100.0).margin (2.0));
    CHECK (std::abs (cents (before.drumNote, after.drumNote)) < 6.0);
}

TEST_CASE ("A producer wishes for a note that is gone after a beat where it will be played")
{
    TestWindow window;
    REQUIRE (window.openMap());
    auto& map = window.view().mapView();
    const auto shown = [&] (const juce::String& words) { return waitUntil ([&] { return window.hint().contains (words); }); };
    wish (window, Figure::lasts, "1beat:1.2beats");
    CHECK (shown ("a place, chosen in Set up"));
    CHECK (fromMessageThread ([&] { return map.keeper().wishes().empty(); }));

    // A room, and a song of 60 beats a minute: the wish is read again, and the song's own for the ring gives way to it.
    onMessageThread ([&] { window.processor().parameter (Parameter::placeOn).setPlainValue (1.0); });
    REQUIRE (waitUntil ([&] { return fromMessageThread ([&] { return map.keeper().wishes().size(); }) == 1; }));
    auto& tempo = map.tempoField().entryField();
    window.focus (tempo);
    window.typeText ("60");
    window.press (juce::KeyPress (juce::KeyPress::returnKey));
    REQUIRE (window.awaitMap());
    CHECK (fromMessageThread ([&] { return map.keeper().wishes().size(); }) == 1);
    REQUIRE (waitUntil ([&] { return foundCount (window) > 0; }));
    REQUIRE (window.awaitMap());
    const auto found = fromMessageThread ([&] { return map.keeper().found(); });
    CHECK (found.areAllMet);
    for (const auto& tuning : found.list)
    {
        CHECK (of (tuning.figures, Figure::lasts) > 0.99);
        CHECK (of (tuning.figures, Figure::lasts) < 1.21);
        CHECK (of (tuning.figures, Figure::ring) < of (tuning.figures, Figure::lasts));
    }
    window.picture ("map-place");

    // A wish about the resonant head's stress lets the search go as far.
    wish (window, Figure::resonantStrength, "60:80");
    REQUIRE (waitUntil ([&] { return foundCount (window) > 0; }));
    const auto taut = fromMessageThread ([&] { return map.keeper().found(); });
    CHECK (of (taut.list.front().figures, Figure::resonantStrength) > 0.59);
}

TEST_CASE ("The map's strokes are played as fast and where it is set")
{
    TestWindow window;
    REQUIRE (window.openMap());
    auto& keeper = window.view().mapView().keeper();
    auto& speed = window.view().auditionBar().speedBox();
    window.enter (speed, "6");
    onMessageThread ([&] { window.processor().parameter (Parameter::strokePlace).setPlainValue (50.0); });
    window.enter (window.view().mapView().figureChoice(), finding::infoOf (Figure::contactTime).name);
    // Another speed while they are being played: these are dropped, and played again.
    window.enter (speed, "1.5");
    REQUIRE (waitUntil (
        [&] { return fromMessageThread ([&] { return keeper.player().usual == 1.5 && keeper.player().place == 0.5; }); }));
    REQUIRE (window.awaitMap());
    const auto played = fromMessageThread ([&] { return keeper.played(); });
    REQUIRE (played != nullptr);

    const auto request = fromMessageThread ([&] { return plugin::requestOf (window.processor().effectiveValues()); });
    const modal::DrumTuner tuner (request.drum);
    const double batter = 210.0, resonant = 280.0; // Hz
    const modal::Tensions tensions{ tuner.notes (modal::HeadSide::batter).tensionFor (batter),
                                    tuner.notes (modal::HeadSide::resonant).tensionFor (resonant) };
    const auto contactAt = [&] (double strokeSpeed)
    {
        finding::Hand hand;
        hand.usual = strokeSpeed;
        hand.place = 0.5;
        finding::Figures figures{};
        finding::addPlayed (figures, request.drum, tensions, { { request.wires, request.hoop, request.stick }, hand });
        return of (figures, Figure::contactTime);
    };
    finding::Figures inMap{}, interpolated{};
    played->play (inMap, tuner, batter, resonant);
    played->addTo (interpolated, batter, resonant);
    CHECK (of (inMap, Figure::contactTime) == contactAt (1.5));
    CHECK (of (inMap, Figure::contactTime) != contactAt (3.0));
    // A harder stroke is shorter; the map lies nearer to strokes of this speed than to those of the other.
    const double distance = std::abs (of (interpolated, Figure::contactTime) - contactAt (1.5));
    CHECK (distance < std::abs (of (interpolated, Figure::contactTime) - contactAt (6.0)));
}
