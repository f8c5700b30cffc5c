#include "LugRing.h"

#include "HeadGeometry.h"
#include "Look.h"

#include <cmath>

namespace editor
{

LugRing::LugRing (int most) : centre (juce::Justification::centred), detail (juce::Justification::centred)
{
    addAndMakeVisible (centre);
    addAndMakeVisible (detail);
    for (int number = 1; number <= most; ++number)
    {
        spots.push_back (std::make_unique<LugSpot> (number));
        spots.back()->onClick = [this, number] { onLug (number - 1); };
        addChildComponent (*spots.back());
        focus.add (*spots.back());
    }
}

void LugRing::show (const Content& content)
{
    if (const int wanted = juce::jmin (static_cast<int> (content.lugs.size()), static_cast<int> (spots.size())); wanted != count)
    {
        count = wanted;
        focus.restart();
        resized();
    }
    colour = content.colour;
    for (std::size_t i = 0; i < static_cast<std::size_t> (count); ++i)
        spots[i]->show (content.lugs[i], content.next == static_cast<int> (i), colour);
    centre.setText (content.centre, TextLine::Weight::large);
    detail.setText (content.detail, TextLine::Weight::quiet);
    repaint();
}

/** Positions for a given size of spots. The head may be wider than high, as if seen at a slant.

    @param slant  the head's width over its height, at most */
LugRing::Places LugRing::placesFor (juce::Point<float> spot, float slant) const
{
    const auto area = getLocalBounds().toFloat();
    const float mostAcross = juce::jmax (20.0f, 0.5f * area.getWidth() - spot.x - 6.0f),
                mostUp = juce::jmax (14.0f, 0.5f * area.getHeight() - spot.y - 6.0f);
    const float halfWidth = juce::jmin (mostAcross, slant * mostUp), halfHeight = juce::jmin (mostUp, halfWidth);
    Places places{ juce::Rectangle<float> (2.0f * halfWidth, 2.0f * halfHeight).withCentre (area.getCentre()), {} };
    for (int i = 0; i < count; ++i)
    {
        const auto direction = directionOf (angleOfLug (i, count));
        // Clear of the hoop at every angle.
        const float reach = 0.5f * (std::abs (direction.x) * spot.x + std::abs (direction.y) * spot.y) + 5.0f;
        const auto at = places.head.getCentre() + direction * juce::Point<float> (halfWidth + reach, halfHeight + reach);
        places.spots.push_back (juce::Rectangle<float> (spot.x, spot.y).withCentre (at).toNearestInt());
    }
    return places;
}

bool LugRing::Places::isClear() const
{
    for (std::size_t i = 1; i <= spots.size(); ++i)
        if (spots[i - 1].intersects (spots[i % spots.size()]))
            return false;
    return true;
}

void LugRing::resized()
{
    constexpr juce::Point<float> roomy{ 46.0f, 34.0f }, small{ 42.0f, 28.0f };
    auto places = placesFor (roomy, 1.0f);
    for (const auto& spot : { roomy, small })
        for (const float slant : { 1.3f, 1.6f, 2.0f, 2.5f })
            if (! places.isClear())
                places = placesFor (spot, slant);
    circle = places.head;
    for (std::size_t i = 0; i < spots.size(); ++i)
    {
        spots[i]->setVisible (i < places.spots.size());
        if (i < places.spots.size())
            spots[i]->setBounds (places.spots[i]);
    }
    const auto middle = circle.reduced (6.0f).toNearestInt();
    const bool hasRoom = middle.getWidth() >= 90;
    centre.setVisible (hasRoom);
    detail.setVisible (hasRoom);
    centre.setBounds (middle.withHeight (26).withY (middle.getCentreY() - 24));
    detail.setBounds (middle.withHeight (20).withY (middle.getCentreY() + 2));
    repaint();
}

void LugRing::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (theme.sheet);
    g.fillEllipse (circle);
    g.setColour (theme.quiet.withAlpha (0.5f));
    g.drawEllipse (circle.expanded (4.0f), 1.5f);
    g.setColour (colour);
    g.drawEllipse (circle, 1.8f);
}

} // namespace editor
