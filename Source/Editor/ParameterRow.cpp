#include "ParameterRow.h"

#include "ChoiceRow.h"
#include "Look.h"
#include "ParameterBinding.h"

namespace editor
{

ParameterRow::ParameterRow (plugin::DrumParameter& parameterToShow, ValueBinding binding)
    : ParameterRow (parameterToShow, textOf (parameterToShow.spec()), std::move (binding))
{
}

ParameterRow::ParameterRow (plugin::DrumParameter& parameterToShow, ControlText controlText, ValueBinding binding)
    : ValueControl (std::move (controlText), std::move (binding)), shown (parameterToShow)
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
    drawn = binding().get();
    if (face.isNotEmpty() || (isChoice() && ! showsName))
        return drawFace (g);
    drawFormLine (g, *this, showsName ? text().name : juce::String(), isChoice() ? withMenuSign (valueText()) : valueText());
    if (isSwitch() || isChoice() || ! isEnabled())
        return;
    const auto& theme = themeOf (*this);
    const auto track = getLocalBounds().toFloat().reduced (4.0f, 1.0f).removeFromBottom (2.0f);
    const float length = track.getWidth() * share();
    g.setColour (theme.line);
    g.fillRect (track);
    g.setColour (theme.quiet);
    g.fillRect (track.withWidth (length));
    g.fillEllipse (juce::Rectangle<float> (6.0f, 6.0f).withCentre ({ track.getX() + length, track.getY() - 0.5f }));
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
    g.setFont (fonts::text());
    g.drawFittedText (face.isNotEmpty() ? face : withMenuSign (valueText()), area.toNearestInt(), juce::Justification::centred, 2,
                      0.85f);
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
    {
        juce::StringArray names;
        for (const auto& word : shown.spec().words)
            names.add (juce::String::fromUTF8 (word.c_str()));
        offerChoices (*this, names, juce::roundToInt (binding().get()),
                      [this] (int chosen)
                      {
                          beginChange();
                          change (chosen);
                          endChange();
                      });
    }
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

} // namespace editor
