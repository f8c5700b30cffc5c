#include "LugSpot.h"

#include "Look.h"
#include "Strings.h"

namespace editor
{

LugSpot::LugSpot (int number) : juce::Button (juce::String (number)), lugNumber (number)
{
    const auto words = strings::lugSpot (number);
    setTitle (words.name);
    setTooltip (words.tip);
    setHelpText (words.tip);
}

void LugSpot::show (const Heard& newHeard, bool isNext, juce::Colour ofHead)
{
    const bool isSame = newHeard == heard && isNext == isWanted && ofHead == colour;
    heard = newHeard;
    isWanted = isNext;
    colour = ofHead;
    setDescription (heard.deviation.isEmpty() ? juce::String()
                                              : heard.deviation + " " + strings::lugSpot (lugNumber).unit + ", " + heard.detail +
                                                    (heard.isNamed ? strings::namedLug : ""));
    if (! isSame)
        repaint();
}

void LugSpot::paintButton (juce::Graphics& g, bool isOver, bool isDown)
{
    const auto& theme = themeOf (*this);
    const auto area = getLocalBounds().toFloat().reduced (1.5f);
    const bool isHeard = heard.deviation.isNotEmpty();
    g.setColour (isWanted ? theme.ink : isOver || isDown ? theme.line : theme.sheet);
    g.fillRoundedRectangle (area, 5.0f);
    g.setColour (heard.isNamed ? theme.caution : isHeard ? colour : theme.line);
    g.drawRoundedRectangle (area, 5.0f, heard.isNamed ? 3.0f : isHeard ? 1.6f : 1.0f);

    auto lines = getLocalBounds().reduced (3, 3);
    g.setColour (isWanted ? theme.paper : isHeard ? theme.ink : theme.quiet);
    g.setFont (fonts::strong());
    if (! isHeard)
        g.drawFittedText (juce::String (lugNumber), lines, juce::Justification::centred, 1, 0.8f);
    else
    {
        if (! heard.isSure && ! isWanted)
            g.setColour (theme.quiet);
        if (! heard.isSure)
            g.setFont (fonts::text());
        g.drawFittedText (heard.deviation, lines.removeFromTop (lines.getHeight() * 11 / 20), juce::Justification::centred, 1,
                          0.8f);
        g.setColour (isWanted ? theme.paper : theme.quiet);
        g.setFont (fonts::small());
        g.drawFittedText (heard.detail, lines, juce::Justification::centred, 1, 0.8f);
    }
    drawFocus (g, *this, getLocalBounds().toFloat());
}

} // namespace editor
