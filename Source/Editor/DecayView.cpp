#include "DecayView.h"

#include "Look.h"
#include "Strings.h"

namespace editor
{
namespace
{

constexpr double longest = 1.2;      // s

} // namespace

DecayView::DecayView()
{
    setTitle (strings::decayTitle);
    setInterceptsMouseClicks (false, false);
}

void DecayView::setScene (const Scene& newScene)
{
    scene = newScene;
    repaint();
}

void DecayView::setAnalysis (std::shared_ptr<const Analysis> newAnalysis)
{
    analysis = std::move (newAnalysis);
    repaint();
}

void DecayView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const auto area =
        getLocalBounds().toFloat().reduced (6.0f, 0.0f).withTrimmedTop (24.0f).withTrimmedBottom (16.0f).withTrimmedLeft (30.0f);
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    g.drawFittedText (strings::decayTitle, getLocalBounds().removeFromTop (18).reduced (6, 0), juce::Justification::centredLeft,
                      1, 0.8f);

    const auto x = [&] (double seconds) { return area.getX() + static_cast<float> (seconds / longest) * area.getWidth(); };
    const auto y = [&] (float level)
    { return area.getY() + area.getHeight() * juce::jlimit (0.0f, 1.0f, level / Analysis::floorLevel); };
    g.setFont (fonts::small());
    for (int level = 0; level >= -60; level -= 20)
    {
        g.setColour (theme.line.withAlpha (0.7f));
        g.fillRect (area.getX(), y (static_cast<float> (level)), area.getWidth(), 1.0f);
        g.setColour (theme.quiet);
        g.drawText (level == 0 ? juce::String ("0 dB") : juce::String::fromUTF8 ("\xe2\x88\x92") + juce::String (-level),
                    juce::Rectangle<float> (area.getX() - 34.0f, y (static_cast<float> (level)) - 7.0f, 30.0f, 14.0f),
                    juce::Justification::centredRight, false);
    }
    for (const double seconds : { 0.0, 0.3, 0.6, 0.9, 1.2 })
    {
        g.setColour (theme.quiet);
        const auto place = juce::Rectangle<float> (40.0f, 14.0f).withCentre ({ x (seconds), area.getBottom() + 8.0f });
        g.drawText (juce::String (seconds, 1) + (seconds == 1.2 ? " s" : ""),
                    place.constrainedWithin (getLocalBounds().toFloat()), juce::Justification::centred, false);
    }
    if (analysis == nullptr || analysis->level.empty())
        return;

    const auto draw = [&] (const std::vector<float>& levels, juce::Colour colour, float width)
    {
        juce::Path curve;
        for (std::size_t i = 0; i < levels.size(); ++i)
        {
            const juce::Point<float> at (x (analysis->timeStep * static_cast<double> (i)), y (levels[i]));
            if (at.x > area.getRight() || levels[i] < Analysis::floorLevel)
                break;
            if (i == 0)
                curve.startNewSubPath (at);
            else
                curve.lineTo (at);
        }
        g.setColour (colour);
        g.strokePath (curve, juce::PathStrokeType (width));
    };
    const bool isFormer = analysis->drum != scene.model;
    draw (analysis->level, isFormer ? theme.mark : theme.quiet, 1.2f);
    draw (analysis->noteLevel, isFormer ? theme.mark : theme.drum, 2.0f);

    const auto predicted = scene.now == nullptr ? 0.0 : scene.now->sustain;
    if (predicted > 0.0)
    {
        const double end = juce::jmin (longest, predicted * static_cast<double> (Analysis::floorLevel) / -60.0);
        const float dashes[] = { 5.0f, 4.0f };
        g.setColour (theme.ink);
        g.drawDashedLine ({ x (0.0), y (0.0f), x (end), y (static_cast<float> (-60.0 * end / predicted)) }, dashes, 2, 1.3f);
    }

    // Captions cover the curves that they would cross.
    auto key = area.withTrimmedTop (2.0f).withLeft (area.getRight() - 0.62f * area.getWidth());
    const auto line = [&] (const juce::String& words, juce::Colour colour)
    {
        const auto row = key.removeFromTop (14.0f);
        g.setColour (theme.paper);
        g.fillRect (row.withLeft (juce::jmax (row.getX(), row.getRight() - fonts::small().getStringWidthFloat (words) - 3.0f)));
        g.setColour (colour);
        g.drawFittedText (words, row.toNearestInt(), juce::Justification::centredRight, 1, 0.7f);
    };
    if (isFormer)
    {
        line (strings::struckBeforeShort, theme.ink);
        line (strings::strikeAgain, theme.ink);
    }
    else
    {
        line (strings::wholeSound, theme.quiet);
        line (strings::drumNoteAlone, theme.drum);
    }
    if (predicted > 0.0)
        line (strings::predictedSlope + juce::String (" ") + juce::String (predicted, 2) + " s", theme.ink);
}

} // namespace editor
