#include "ValueBox.h"

#include "Look.h"

namespace editor
{
namespace
{

constexpr double pixelsForRange = 160.0;

} // namespace

ValueBox::ValueBox (ControlText controlText, ValueBinding binding) : ValueControl (std::move (controlText), std::move (binding))
{
    setMouseCursor (juce::MouseCursor::UpDownResizeCursor);
}

void ValueBox::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    auto area = getLocalBounds().reduced (4, 2);
    g.setColour (theme.quiet);
    g.setFont (letters::small());
    g.drawFittedText (text().name, area.removeFromTop (area.getHeight() * 2 / 5), juce::Justification::centred, 1, 0.7f);
    g.setColour (theme.ink);
    g.setFont (letters::strong());
    g.drawFittedText (valueText(), area, juce::Justification::centred, 1, 0.7f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

void ValueBox::mouseDown (const juce::MouseEvent&)
{
    grabbed = binding().get();
}

void ValueBox::mouseDrag (const juce::MouseEvent& event)
{
    if (! event.mouseWasDraggedSinceMouseDown())
        return;
    beginChange();
    change (grabbed - (binding().high - binding().low) * event.getDistanceFromDragStartY() / pixelsForRange);
}

void ValueBox::mouseUp (const juce::MouseEvent&)
{
    endChange();
}

} // namespace editor
