#include "ChoiceRow.h"

#include "Look.h"

namespace editor
{
namespace
{

/** The outermost view of the window: a menu within it is drawn as large as the rest. */
juce::Component& wholeView (juce::Component& part)
{
    auto* view = &part;
    while (view->getParentComponent() != nullptr &&
           dynamic_cast<juce::AudioProcessorEditor*> (view->getParentComponent()) == nullptr)
        view = view->getParentComponent();
    return *view;
}

} // namespace

void drawFormLine (juce::Graphics& g, const juce::Component& line, const juce::String& name, const juce::String& value)
{
    const auto& theme = themeOf (line);
    if (line.isMouseOver() && line.isEnabled())
    {
        g.setColour (theme.line.withAlpha (0.35f));
        g.fillRect (line.getLocalBounds());
    }
    // The value has what it needs, the name the rest.
    auto area = line.getLocalBounds().toFloat().reduced (4.0f, 1.0f).withTrimmedBottom (3.0f);
    const float needed = juce::jmin (fonts::strong().getStringWidthFloat (value) + 2.0f, 0.7f * area.getWidth());
    g.setColour (line.isEnabled() ? theme.ink : theme.mark);
    g.setFont (fonts::strong());
    g.drawFittedText (value, area.removeFromRight (name.isEmpty() ? area.getWidth() : needed).toNearestInt(),
                      name.isEmpty() ? juce::Justification::centred : juce::Justification::centredRight, 1, 0.7f);
    area.removeFromRight (6.0f);
    g.setColour (line.isEnabled() ? theme.quiet : theme.mark);
    g.setFont (fonts::text());
    g.drawFittedText (name, area.toNearestInt(), juce::Justification::centredLeft, 1, 0.75f);
    drawFocus (g, line, line.getLocalBounds().toFloat());
}

void offerChoices (juce::Component& beside, const juce::StringArray& choices, int now, std::function<void (int)> choose)
{
    juce::PopupMenu menu;
    menu.setLookAndFeel (&beside.getLookAndFeel());
    for (int i = 0; i < choices.size(); ++i)
        menu.addItem (i + 1, choices[i], true, i == now);
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (&beside).withParentComponent (&wholeView (beside)),
                        [safe = juce::Component::SafePointer<juce::Component> (&beside), chosen = std::move (choose)] (int item)
                        {
                            if (safe != nullptr && item != 0)
                                chosen (item - 1);
                        });
}

juce::String withMenuSign (const juce::String& value)
{
    return value + juce::String::fromUTF8 (" \xe2\x96\xbe");
}

ChoiceRow::ChoiceRow (ControlText text, ValueBinding binding, juce::StringArray choices)
    : ValueControl (std::move (text), std::move (binding)), names (std::move (choices))
{
}

void ChoiceRow::refresh()
{
    if (binding().get() != drawn)
        repaint();
}

void ChoiceRow::paint (juce::Graphics& g)
{
    drawn = binding().get();
    drawFormLine (g, *this, text().name, withMenuSign (valueText()));
}

void ChoiceRow::mouseDown (const juce::MouseEvent& event)
{
    if (event.getNumberOfClicks() == 1)
        offerChoices (*this, names, juce::roundToInt (binding().get()), [this] (int chosen) { change (chosen); });
}

} // namespace editor
