// Every control has a name, a sentence of help, a unit and a typed entry, and can be reached and moved from the keyboard.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"
#include "tests/Catch.h"

#include <set>

namespace
{

void collect (juce::Component& within, std::vector<juce::Component*>& found)
{
    for (auto* child : within.getChildren())
    {
        const bool isOurs =
            dynamic_cast<juce::ScrollBar*> (child) == nullptr && dynamic_cast<juce::ResizableCornerComponent*> (child) == nullptr;
        if (isOurs && child->isVisible() && child->getWantsKeyboardFocus() && dynamic_cast<juce::Viewport*> (child) == nullptr)
            found.push_back (child);
        collect (*child, found);
    }
}

std::vector<juce::Component*> controlsOf (TestWindow& window)
{
    std::vector<juce::Component*> found;
    onMessageThread ([&] { collect (window.view(), found); });
    return found;
}

/** Shows the numbers of every group on the set-up page. */
void unfold (TestWindow& window)
{
    onMessageThread (
        [&]
        {
            for (std::size_t i = 0; i < plugin::parameterCount; ++i)
                window.view().setUpView().rowOf (static_cast<plugin::Parameter> (i));
        });
}

} // namespace

TEST_CASE ("Every control on every page has a name, a tooltip and a typed entry")
{
    TestWindow window (800, 500);
    REQUIRE (window.settle());
    std::size_t values = 0, buttons = 0;
    for (const auto page :
         { editor::Page::heads, editor::Page::sound, editor::Page::map, editor::Page::setUp, editor::Page::listen })
    {
        window.setPage (page);
        if (page == editor::Page::setUp)
            unfold (window);
        for (auto* control : controlsOf (window))
            onMessageThread (
                [&]
                {
                    INFO (control->getTitle());
                    CHECK (control->getTitle().isNotEmpty());
                    auto* client = dynamic_cast<juce::TooltipClient*> (control);
                    REQUIRE (client != nullptr);
                    CHECK (client->getTooltip().length() > 20);
                    auto* handler = control->getAccessibilityHandler();
                    REQUIRE (handler != nullptr);
                    CHECK (handler->getTitle().isNotEmpty());
                    CHECK (handler->getHelp().isNotEmpty());

                    if (auto* value = dynamic_cast<editor::ValueControl*> (control))
                    {
                        ++values;
                        CHECK (value->text().unit.isNotEmpty());
                        REQUIRE (handler->getValueInterface() != nullptr);
                        CHECK (handler->getValueInterface()->getCurrentValueAsString().isNotEmpty());
                        CHECK (handler->getValueInterface()->getRange().isValid());
                        if (dynamic_cast<editor::SpectrumView*> (value) != nullptr)
                            return; // has no value until a mode is chosen
                        // What it shows can be typed back and is the same.
                        const double before = value->binding().get();
                        CHECK (value->typeIn (value->valueText()).toStdString().empty());
                        const double tolerance = 0.006 * (value->binding().high - value->binding().low) + 0.02;
                        CHECK (std::abs (value->binding().get() - before) <= tolerance);
                        value->binding().begin();
                        value->binding().set (before);
                        value->binding().end();
                        if (value->text().unit != "name" && value->text().unit != "on or off")
                            CHECK (value->typeIn ("rhubarb").isNotEmpty());
                    }
                    else
                        ++buttons;
                });
    }
    CHECK (values > plugin::parameterCount);
    CHECK (buttons > 15);
}

TEST_CASE ("Every parameter has a tooltip")
{
    for (const auto& spec : plugin::parameterTable())
    {
        INFO (spec.id);
        const auto tip = editor::strings::tipFor (spec.id);
        CHECK (tip.length() > 20);
        CHECK (tip.endsWithChar ('.'));
    }
}

TEST_CASE ("The tab key reaches the notes, the heads and the bars")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.focus (*window.buttonNamed (editor::strings::presets.name));
    std::set<juce::String> reached;
    for (int i = 0; i < 80; ++i)
    {
        window.press (juce::KeyPress (juce::KeyPress::tabKey));
        reached.insert (fromMessageThread (
            []
            {
                auto* focused = juce::Component::getCurrentlyFocusedComponent();
                return focused != nullptr ? focused->getTitle() : juce::String();
            }));
    }
    for (const char* name : { "Batter tap note", "Resonant tap note", "Interval", "Batter head from above", "Batter lug 1",
                              "Stroke at the centre", "Stroke speed" })
    {
        INFO (name);
        CHECK (reached.count (name) == 1);
    }
}

TEST_CASE ("Keys strike, step and move between modes")
{
    TestWindow window;
    REQUIRE (window.settle());
    const auto strokes = window.processor().lastStrike().strokeCount();
    window.focus (window.view());
    window.press (juce::KeyPress (juce::KeyPress::spaceKey));
    CHECK (waitUntil ([&] { return window.processor().lastStrike().strokeCount() == strokes + 1; }));
    window.press (juce::KeyPress ('4', {}, '4'));
    CHECK (waitUntil ([&] { return window.processor().lastStrike().strokeCount() > strokes + 1; }));

    auto& batter = window.view().ladderView().batterHandle();
    const double note = window.plain (plugin::Parameter::batterNote), interval = window.plain (plugin::Parameter::interval);
    window.focus (batter);
    window.press (juce::KeyPress (juce::KeyPress::upKey));
    CHECK (window.plain (plugin::Parameter::batterNote) == Approx (note + 1.0).margin (0.011));
    CHECK (window.plain (plugin::Parameter::interval) == Approx (interval - 1.0).margin (0.011));
    window.press (juce::KeyPress (juce::KeyPress::downKey));

    REQUIRE (window.settle());
    auto& spectrum = window.view().spectrumView();
    window.enter (spectrum, "1,1");
    const auto highlighted = [&]
    {
        const int mode = window.view().highlightedMode();
        modal::Mode none;
        none.m = -1;
        return mode < 0 ? none : window.view().keeper().scene().now->modes[static_cast<std::size_t> (mode)];
    };
    CHECK (fromMessageThread (highlighted).m == 1);
    CHECK (fromMessageThread ([&] { return window.view().animator().isMoving(); }));
    juce::Thread::sleep (300);
    window.picture ("mode-1-1");

    // The same by pointing at where the (0,1) pair's lower mode stands.
    const auto& now = window.prediction();
    const double lowest = now.modes[static_cast<std::size_t> (now.breathing.lower)].frequency;
    window.hover (spectrum, fromMessageThread ([&] { return juce::Point<float> (spectrum.xOf (lowest), 60.0f); }));
    CHECK (fromMessageThread (highlighted).frequency == Approx (lowest));
}
