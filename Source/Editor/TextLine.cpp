#include "TextLine.h"

#include "Look.h"

namespace editor
{
namespace
{

constexpr int mostLines = 5;
constexpr float narrowest = 0.8f; // letters may be squeezed to this share

} // namespace

TextLine::TextLine (juce::Justification justification) : where (justification)
{
    setInterceptsMouseClicks (false, false);
}

void TextLine::setText (const juce::String& newWords, Weight newWeight)
{
    if (newWords == words && newWeight == weight)
        return;
    words = newWords;
    weight = newWeight;
    setTitle (words);
    repaint();
}

void TextLine::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (weight == Weight::strong ? theme.ink : weight == Weight::warning ? theme.caution : theme.quiet);
    g.setFont (weight == Weight::strong ? letters::strong() : letters::text());
    g.drawFittedText (words, getLocalBounds(), where, mostLines, narrowest);
}

std::unique_ptr<juce::AccessibilityHandler> TextLine::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
}

} // namespace editor
