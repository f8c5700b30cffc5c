#include "TextLine.h"

#include "Look.h"

namespace editor
{
namespace
{

constexpr float narrowest = 0.8f; // narrowest horizontal scale of text

juce::TextLayout layoutOf (const juce::String& words, const juce::Font& font, juce::Colour colour, juce::Justification where,
                           int width)
{
    juce::AttributedString text;
    text.append (words, font, colour);
    text.setJustification (where);
    juce::TextLayout layout;
    layout.createLayout (text, static_cast<float> (width));
    return layout;
}

} // namespace

TextLine::TextLine (juce::Justification justification) : where (justification)
{
    setInterceptsMouseClicks (false, false);
}

void TextLine::setText (const juce::String& newWords, Weight newWeight)
{
    if (newWords == words && newWeight == weight && figure.isEmpty())
        return;
    words = newWords;
    figure.clear();
    weight = newWeight;
    setTitle (words);
    repaint();
}

void TextLine::setFigure (const juce::String& name, const juce::String& value)
{
    if (name == words && value == figure)
        return;
    words = name;
    figure = value;
    setTitle (words + ": " + figure);
    repaint();
}

void TextLine::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    if (figure.isNotEmpty())
    {
        const auto area = getLocalBounds().reduced (2, 0);
        g.setColour (theme.quiet);
        g.setFont (fonts::text());
        g.drawFittedText (words, area, juce::Justification::centredLeft, 1, narrowest);
        g.setColour (theme.ink);
        g.setFont (fonts::strong());
        g.drawFittedText (figure, area, juce::Justification::centredRight, 1, narrowest);
        return;
    }
    const auto colour = weight == Weight::warning ? theme.caution : weight == Weight::quiet ? theme.quiet : theme.ink;
    if (weight != Weight::large)
        return drawLines (g, colour, weight == Weight::answer ? fonts::strong() : fonts::text());
    const bool fits = fonts::display().getStringWidthFloat (words) <= static_cast<float> (getWidth());
    g.setColour (colour);
    g.setFont (fits ? fonts::display() : fonts::strong());
    g.drawFittedText (words, getLocalBounds(), where, 1, narrowest);
}

/** Uses as many lines as fit, then a smaller font, then leaves out whole sentences at the end. */
void TextLine::drawLines (juce::Graphics& g, juce::Colour colour, const juce::Font& font) const
{
    auto shown = words;
    auto layout = layoutOf (shown, font, colour, where, getWidth());
    const auto fits = [&] { return layout.getHeight() <= static_cast<float> (getHeight()); };
    const auto makeSmall = [&] { layout = layoutOf (shown, fonts::small(), colour, where, getWidth()); };
    if (! fits())
        makeSmall();
    while (! fits() && shown.contains (". "))
    {
        shown = shown.upToLastOccurrenceOf (". ", true, false).trimEnd();
        makeSmall();
    }
    layout.draw (g, getLocalBounds().toFloat());
}

std::unique_ptr<juce::AccessibilityHandler> TextLine::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
}

} // namespace editor
