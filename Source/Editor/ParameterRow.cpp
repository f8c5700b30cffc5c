#include "ParameterRow.h"

#include "Look.h"
#include "ParameterBinding.h"

namespace editor
{

namespace
{

/** All that is drawn to one scale: a menu within it is as large as the rest. */
juce::Component& wholeView (juce::Component& part)
{
    auto* view = &part;
    while (view->getParentComponent() != nullptr &&
           dynamic_cast<juce::AudioProcessorEditor*> (view->getParentComponent()) == nullptr)
        view = view->getParentComponent();
    return *view;
}

} // namespace

ParameterRow::ParameterRow (plugin::DrumParameter& parameterToShow, ValueBinding binding)
    : ValueControl (textOf (parameterToShow.spec()), std::move (binding)), shown (parameterToShow)
{
    if (! isSwitch() && ! isChoice())
        setMouseCursor (juce::MouseCursor::LeftRightResizeCursor);
}

void ParameterRow::refresh()
{
    if (binding().get() != drawn)
        repaint();
}

float ParameterRow::share() const
{
    return shown.convertTo0to1 (static_cast<float> (binding().get()));
}

juce::Rectangle<int> ParameterRow::entryArea() const
{
    return showsName ? getLocalBounds().removeFromRight (getWidth() / 2) : getLocalBounds();
}

void ParameterRow::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    drawn = binding().get();
    if (face.isNotEmpty() || (isChoice() && ! showsName))
    {
        drawn = binding().get();
        drawFace (g);
        return;
    }
    auto area = getLocalBounds().toFloat().reduced (4.0f, 1.0f);
    if (isMouseOver() && isEnabled())
    {
        g.setColour (theme.line.withAlpha (0.35f));
        g.fillRect (getLocalBounds());
    }
    const auto track = area.removeFromBottom (3.0f);
    if (! isSwitch() && ! isChoice() && isEnabled())
    {
        g.setColour (theme.line);
        g.fillRect (track.withTrimmedTop (1.0f));
        g.setColour (theme.quiet);
        g.fillRect (track.withTrimmedTop (1.0f).withWidth (track.getWidth() * share()));
        g.fillEllipse (
            juce::Rectangle<float> (6.0f, 6.0f).withCentre ({ track.getX() + track.getWidth() * share(), track.getCentreY() }));
    }
    if (showsName)
    {
        g.setColour (isEnabled() ? theme.quiet : theme.mark);
        g.setFont (letters::text());
        g.drawFittedText (text().name, area.removeFromLeft (0.56f * area.getWidth()).toNearestInt(),
                          juce::Justification::centredLeft, 1, 0.75f);
    }
    g.setColour (isEnabled() ? theme.ink : theme.mark);
    g.setFont (letters::strong());
    const auto shownText = valueText() + (isChoice() ? juce::String::fromUTF8 (" \xe2\x96\xbe") : juce::String());
    g.drawFittedText (shownText, area.toNearestInt(),
                      showsName ? juce::Justification::centredRight : juce::Justification::centred, 1, 0.7f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

void ParameterRow::drawFace (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = getLocalBounds().toFloat().reduced (1.5f);
    const bool isOn = isSwitch() && binding().get() >= 0.5;
    g.setColour (isOn ? theme.ink : isMouseOver() ? theme.line : theme.sheet);
    g.fillRoundedRectangle (area, 4.0f);
    g.setColour (theme.line);
    g.drawRoundedRectangle (area, 4.0f, 1.0f);
    g.setColour (isOn ? theme.paper : theme.ink);
    g.setFont (letters::text());
    g.drawFittedText (face.isNotEmpty() ? face : valueText() + juce::String::fromUTF8 (" \xe2\x96\xbe"), area.toNearestInt(),
                      juce::Justification::centred, 2, 0.85f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

void ParameterRow::mouseDown (const juce::MouseEvent& event)
{
    grabbed = share();
    if (event.getNumberOfClicks() > 1)
        return;
    if (isSwitch())
    {
        beginChange();
        change (binding().get() < 0.5 ? 1.0 : 0.0);
        endChange();
    }
    else if (isChoice())
        offerChoices();
}

void ParameterRow::mouseDrag (const juce::MouseEvent& event)
{
    if (! event.mouseWasDraggedSinceMouseDown() || isSwitch() || isChoice())
        return;
    beginChange();
    const float finer = event.mods.isShiftDown() ? 0.1f : 1.0f;
    const float moved = finer * static_cast<float> (event.getDistanceFromDragStartX()) / static_cast<float> (getWidth());
    change (static_cast<double> (shown.convertFrom0to1 (juce::jlimit (0.0f, 1.0f, grabbed + moved))));
}

void ParameterRow::mouseUp (const juce::MouseEvent&)
{
    endChange();
}

void ParameterRow::offerChoices()
{
    juce::PopupMenu menu;
    menu.setLookAndFeel (&getLookAndFeel());
    const auto& wordsOf = shown.spec().words;
    const int now = juce::roundToInt (binding().get());
    for (std::size_t i = 0; i < wordsOf.size(); ++i)
        menu.addItem (static_cast<int> (i) + 1, juce::String (wordsOf[i]), true, static_cast<int> (i) == now);
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (this).withParentComponent (&wholeView (*this)),
                        [safe = juce::Component::SafePointer<ParameterRow> (this)] (int chosen)
                        {
                            if (safe == nullptr || chosen == 0)
                                return;
                            safe->beginChange();
                            safe->change (chosen - 1);
                            safe->endChange();
                        });
}

} // namespace editor
