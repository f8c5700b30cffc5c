#include "TextLine.h"

#include "Look.h"

namespace editor
{
namespace
{

constexpr int mostLines = 5;      // of an explanation; a value has one
constexpr float narrowest = 0.8f; // letters may be squeezed to this share

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
        g.setFont (letters::text());
        g.drawFittedText (words, area, juce::Justification::centredLeft, 1, narrowest);
        g.setColour (theme.ink);
        g.setFont (letters::strong());
        g.drawFittedText (figure, area, juce::Justification::centredRight, 1, narrowest);
        return;
    }
    g.setColour (weight == Weight::warning ? theme.caution : weight == Weight::quiet ? theme.quiet : theme.ink);
    const bool isValue = weight == Weight::strong || weight == Weight::large;
    const bool isLarge =
        weight == Weight::large && letters::display().getStringWidthFloat (words) <= static_cast<float> (getWidth());
    g.setFont (isLarge ? letters::display() : isValue ? letters::strong() : letters::text());
    g.drawFittedText (words, getLocalBounds(), where, isValue ? 1 : mostLines, narrowest);
}

std::unique_ptr<juce::AccessibilityHandler> TextLine::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
}

} // namespace editor
