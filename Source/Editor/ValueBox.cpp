#include "ValueBox.h"

#include "Look.h"

namespace editor
{
namespace
{

constexpr double pixelsForRange = 160.0;

} // namespace

ValueBox::ValueBox (ControlText controlText, ValueBinding binding) : DragControl (std::move (controlText), std::move (binding)) {}

void ValueBox::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    auto area = getLocalBounds().reduced (4, 2);
    g.setColour (theme.quiet);
    g.setFont (fonts::small());
    g.drawFittedText (text().name, area.removeFromTop (area.getHeight() * 2 / 5), juce::Justification::centred, 1, 0.7f);
    g.setColour (theme.ink);
    g.setFont (fonts::strong());
    g.drawFittedText (valueText(), area, juce::Justification::centred, 1, 0.7f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

double ValueBox::draggedTo (double grabbed, const juce::MouseEvent& event) const
{
    return grabbed - (binding().high - binding().low) * event.getDistanceFromDragStartY() / pixelsForRange;
}

} // namespace editor
