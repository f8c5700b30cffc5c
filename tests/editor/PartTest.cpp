// Heads and wires are chosen by name; their numbers follow.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"
#include "tests/Catch.h"

namespace
{
using plugin::Parameter;

juce::String shown (editor::ChoiceRow& row)
{
    return fromMessageThread ([&] { return row.valueText(); });
}

} // namespace

TEST_CASE ("A head is chosen by name, with the keyboard, and undone in one step")
{
    TestWindow window;
    window.setPage (editor::Page::setUp);
    REQUIRE (window.settle());
    auto& head = *window.view().setUpView().partNamed ("Batter head");
    CHECK (shown (head) == "Single ply, coated");

    window.enter (head, "double ply, clear");
    CHECK (shown (head) == "Double ply, clear");
    CHECK (window.plain (Parameter::batterPlies) == 2.0);
    CHECK (window.plain (Parameter::batterCoating) == 0.0);
    CHECK (window.plain (Parameter::batterFilm) == Approx (7.0)); // mil a ply, Presets/heads/double-7mil.json
    window.press (juce::KeyPress ('z', juce::ModifierKeys::ctrlModifier, 0));
    CHECK (waitUntil ([&] { return shown (head) == "Single ply, coated"; }));

    // Arrow keys step through the names.
    window.focus (head);
    window.press (juce::KeyPress (juce::KeyPress::upKey));
    const auto names = editor::namedParts().front().names();
    CHECK (shown (head) == names[names.indexOf ("Single ply, coated") + 1]);
    window.press (juce::KeyPress (juce::KeyPress::downKey));
    CHECK (shown (head) == "Single ply, coated");

    // A name that does not exist changes nothing, and the window lists those that do.
    window.enter (head, "calf skin");
    CHECK (shown (head) == "Single ply, coated");
    CHECK (window.hint().contains ("Double ply, coated"));
}

TEST_CASE ("Numbers that match no name are custom, and are folded away until asked for")
{
    TestWindow window;
    window.setPage (editor::Page::setUp);
    REQUIRE (window.settle());
    auto& setUp = window.view().setUpView();
    auto* numbers = window.buttonNamed ("Wires: Details");
    REQUIRE (numbers != nullptr);
    CHECK_FALSE (fromMessageThread ([&] { return numbers->getToggleState(); }));
    auto& strands = *fromMessageThread ([&] { return setUp.rowOf (Parameter::wireStrands); }); // unfolds
    CHECK (fromMessageThread ([&] { return strands.isVisible() && numbers->getToggleState(); }));
    window.focus (*numbers);
    window.press (juce::KeyPress (juce::KeyPress::returnKey));
    CHECK (waitUntil ([&] { return ! strands.isVisible(); }));
    window.picture ("set-up-folded");

    auto& wires = *setUp.partNamed ("Snare wires");
    CHECK (shown (wires) == "20 strands, usual");
    window.enter (*fromMessageThread ([&] { return setUp.rowOf (Parameter::wireStrands); }), "22");
    CHECK (waitUntil ([&] { return shown (wires) == editor::strings::customPart; }));
    window.enter (wires, "24 strands");
    CHECK (shown (wires) == "24 strands");
    CHECK (window.plain (Parameter::wireStrands) == 24.0);
}

TEST_CASE ("The lugs of a head are one stop of the Tab key; arrow keys move between them")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto& batter = window.view().batterView();
    const auto focused = []
    {
        return fromMessageThread (
            []
            {
                auto* component = juce::Component::getCurrentlyFocusedComponent();
                return component != nullptr ? component->getTitle() : juce::String();
            });
    };
    window.focus (batter.lug (1));
    window.press (juce::KeyPress (juce::KeyPress::rightKey));
    CHECK (focused() == "Batter lug 2");
    window.press (juce::KeyPress (juce::KeyPress::leftKey));
    window.press (juce::KeyPress (juce::KeyPress::leftKey));
    CHECK (focused() == "Batter lug 10");
    window.press (juce::KeyPress (juce::KeyPress::upKey));
    CHECK (window.plain (plugin::batterLug (9)) == Approx (5.0)); // one step of the arrow key
    window.press (juce::KeyPress (juce::KeyPress::tabKey));
    CHECK_FALSE (focused().startsWith ("Batter lug"));

    // Clockwise, seen from above: the second of ten lugs is below the first, which is at the right.
    onMessageThread (
        [&]
        {
            const auto first = batter.lug (1).getBounds().getCentre(), second = batter.lug (2).getBounds().getCentre();
            CHECK (first.x > second.x);
            CHECK (first.y < second.y);
        });
}
