#include "LevelBar.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

namespace editor
{
namespace
{

constexpr float quietest = -60.0f;  // dB
constexpr float tooLoud = -1.0f;    // dB: close to clipping
constexpr float fallPerCall = 1.5f; // dB

} // namespace

LevelBar::LevelBar() : level (quietest)
{
    setTitle (strings::inputLevel);
    setTooltip (strings::inputLevelTip);
    setHelpText (strings::inputLevelTip);
}

void LevelBar::feed (float peak)
{
    const float now = juce::jmax (juce::Decibels::gainToDecibels (peak, quietest), level - fallPerCall);
    if (juce::approximatelyEqual (now, level))
        return;
    level = now;
    repaint();
}

void LevelBar::clear()
{
    if (level > quietest)
        repaint();
    level = quietest;
}

float LevelBar::share() const
{
    return juce::jlimit (0.0f, 1.0f, 1.0f - level / quietest);
}

void LevelBar::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    auto area = getLocalBounds().toFloat();
    g.setColour (theme.quiet);
    g.setFont (fonts::small());
    g.drawText (strings::inputShort, area.removeFromLeft (38.0f), juce::Justification::centredLeft, false);
    const bool isQuiet = level <= quietest;
    g.drawText (isQuiet ? juce::String() : withSign (static_cast<double> (level), 0) + " dB", area.removeFromRight (48.0f),
                juce::Justification::centredRight, false);
    const auto bar = area.withSizeKeepingCentre (area.getWidth(), 4.0f);
    g.setColour (theme.line);
    g.fillRect (bar);
    g.setColour (level > tooLoud ? theme.caution : theme.drum);
    g.fillRect (bar.withWidth (share() * bar.getWidth()));
}

std::unique_ptr<juce::AccessibilityHandler> LevelBar::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
}

} // namespace editor
