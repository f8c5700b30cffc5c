#include "LugHandle.h"

#include "Look.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr double centsPerPixel = 1.0;

} // namespace

LugHandle::LugHandle (modal::HeadSide headSide, int number, ControlText text, ValueBinding cents)
    : DragControl (std::move (text), std::move (cents)), side (headSide), lugNumber (number)
{
}

void LugHandle::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const double cents = binding().get();
    const auto middle = getLocalBounds().toFloat().getCentre();
    const auto colour = side == modal::HeadSide::batter ? theme.batter : theme.resonant;

    if (std::abs (cents) < 0.05)
    {
        // A plain square while the lug is even.
        g.setColour (isMouseOver() ? colour : theme.quiet);
        g.fillRoundedRectangle (juce::Rectangle<float> (8.0f, 8.0f).withCentre (middle), 1.5f);
    }
    else
    {
        // A bar up or down shows the deviation.
        const float grown = juce::jlimit (-9.0f, 9.0f, static_cast<float> (cents) / 8.0f);
        g.setColour (colour);
        g.fillRoundedRectangle (juce::Rectangle<float> (8.0f, 8.0f).withCentre (middle), 1.5f);
        g.fillRect (middle.x - 1.5f, grown > 0.0f ? middle.y - 4.0f - grown : middle.y + 4.0f, 3.0f, std::abs (grown));
    }
    drawFocus (g, *this, getLocalBounds().toFloat());
}

double LugHandle::draggedTo (double grabbed, const juce::MouseEvent& event) const
{
    const double cents = grabbed - centsPerPixel * event.getDistanceFromDragStartY();
    return std::abs (cents) < 3.0 && ! event.mods.isAltDown() ? 0.0 : cents;
}

} // namespace editor
