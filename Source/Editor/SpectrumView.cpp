#include "SpectrumView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include <cmath>

namespace editor
{
namespace
{

juce::String hertzText (double hertz)
{
    return hertz < 1000.0 ? fixed (hertz, 0) : fixed (hertz / 1000.0, 0) + " k";
}

} // namespace

SpectrumView::SpectrumView (ValueBinding highlight)
    : ValueControl (strings::spectrumMode(), std::move (highlight)), emptyWords (strings::noSpectrumYet)
{
    setTitle (strings::spectrumTitle);
}

void SpectrumView::setScene (const Scene& newScene)
{
    scene = newScene;
    repaint();
}

void SpectrumView::setAnalysis (std::shared_ptr<const Analysis> newAnalysis)
{
    analysis = std::move (newAnalysis);
    repaint();
}

void SpectrumView::setAdvice (const juce::String& newAdvice)
{
    if (newAdvice == emptyWords)
        return;
    emptyWords = newAdvice;
    repaint();
}

juce::Rectangle<float> SpectrumView::plot() const
{
    return getLocalBounds()
        .toFloat()
        .reduced (6.0f, 0.0f)
        .withTrimmedTop (24.0f)
        .withTrimmedBottom (16.0f)
        .withTrimmedLeft (30.0f);
}

float SpectrumView::xOf (double hertz) const
{
    const double share = std::log (hertz / Analysis::lowest) / std::log (Analysis::highest / Analysis::lowest);
    return plot().getX() + static_cast<float> (share) * plot().getWidth();
}

int SpectrumView::modeAt (float x) const
{
    int nearest = -1;
    float best = 8.0f;
    if (scene.now != nullptr)
        for (std::size_t i = 0; i < scene.now->modes.size(); ++i)
        {
            const auto& mode = scene.now->modes[i];
            const float away = std::abs (xOf (mode.frequency) - x);
            if (! mode.isAirMode && away < best)
            {
                best = away;
                nearest = static_cast<int> (i);
            }
        }
    return nearest;
}

void SpectrumView::mouseMove (const juce::MouseEvent& event)
{
    binding().set (modeAt (event.position.x));
}

void SpectrumView::mouseExit (const juce::MouseEvent&)
{
    binding().set (-1.0);
}

void SpectrumView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    auto heading = getLocalBounds().removeFromTop (18).reduced (6, 0);
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    g.drawFittedText (strings::spectrumTitle, heading, juce::Justification::centredLeft, 1, 0.8f);

    g.setFont (fonts::small());
    for (const double hertz : { 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0 })
    {
        const float x = xOf (hertz);
        g.setColour (theme.line.withAlpha (0.7f));
        g.fillRect (x, area.getY(), 1.0f, area.getHeight());
        g.setColour (theme.quiet);
        g.drawText (hertzText (hertz), juce::Rectangle<float> (x - 20.0f, area.getBottom() + 1.0f, 40.0f, 14.0f),
                    juce::Justification::centred, false);
    }
    g.drawText ("Hz", juce::Rectangle<float> (area.getRight() - 30.0f, area.getBottom() + 1.0f, 30.0f, 14.0f),
                juce::Justification::centredRight, false);

    for (const int level : { 0, -20, -40, -60 })
    {
        const float y = area.getY() + area.getHeight() * static_cast<float> (level) / Analysis::floorLevel;
        g.setColour (theme.line.withAlpha (0.5f));
        g.fillRect (area.getX(), y, area.getWidth(), 1.0f);
        g.setColour (theme.quiet);
        g.drawText (level == 0 ? juce::String ("0 dB") : withSign (level, 0),
                    juce::Rectangle<float> (area.getX() - 36.0f, y - 7.0f, 32.0f, 14.0f), juce::Justification::centredRight,
                    false);
    }

    if (analysis != nullptr && ! analysis->spectrum.empty())
    {
        juce::Path curve;
        curve.startNewSubPath (area.getBottomLeft());
        for (std::size_t i = 0; i < analysis->spectrum.size(); ++i)
            curve.lineTo (xOf (analysis->frequencyOf (static_cast<double> (i))),
                          area.getY() + area.getHeight() * juce::jmin (1.0f, analysis->spectrum[i] / Analysis::floorLevel));
        curve.lineTo (area.getBottomRight());
        curve.closeSubPath();
        const bool isFormer = isOfFormerDrum();
        g.setColour (theme.ink.withAlpha (isFormer ? 0.06f : 0.16f));
        g.fillPath (curve);
        g.setColour (isFormer ? theme.mark : theme.ink.withAlpha (0.75f));
        g.strokePath (curve, juce::PathStrokeType (1.0f));
        if (isFormer)
        {
            g.setColour (theme.ink);
            g.drawFittedText (strings::struckBefore, area.withHeight (16.0f).toNearestInt(), juce::Justification::centredRight, 1,
                              0.7f);
        }
    }
    else
    {
        g.setColour (theme.quiet);
        g.setFont (fonts::text());
        g.drawFittedText (emptyWords, area.toNearestInt(), juce::Justification::centred, 2, 0.8f);
    }
    drawModes (g);
    g.setColour (theme.line);
    g.fillRect (area.getX(), area.getBottom(), area.getWidth(), 1.0f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

void SpectrumView::drawModes (juce::Graphics& g) const
{
    if (scene.now == nullptr)
        return;
    const auto& theme = themeOf (*this);
    const auto& now = *scene.now;
    const auto area = plot();
    const int lit = juce::roundToInt (binding().get());
    for (int i = 0; i < static_cast<int> (now.modes.size()); ++i)
    {
        const auto& mode = now.modes[static_cast<std::size_t> (i)];
        if (mode.frequency < Analysis::lowest || mode.frequency > Analysis::highest || mode.isAirMode)
            continue;
        const bool isMain =
            i == now.breathing.lower || i == now.breathing.upper || i == now.rocking.lower || i == now.rocking.upper;
        const float height = i == lit ? area.getHeight() : isMain ? 16.0f : 6.0f;
        g.setColour (theme.drum);
        const float width = i == lit ? 2.0f : isMain ? 2.0f : 1.0f;
        g.fillRect (xOf (mode.frequency) - 0.5f * width, area.getBottom() - height, width, height);
    }
    if (lit >= 0 && lit < static_cast<int> (now.modes.size()))
    {
        const auto& mode = now.modes[static_cast<std::size_t> (lit)];
        const auto description = binding().toText (lit) + "   " + strings::fallsIn + " " + juce::String (mode.decay.t60(), 2) +
                                 " s" + strings::afterComma (strings::sharing (now, mode));
        g.setColour (theme.drum);
        g.setFont (fonts::title());
        g.drawFittedText (description, getLocalBounds().removeFromTop (18).reduced (6, 0), juce::Justification::centredRight, 1,
                          0.7f);
    }
}

} // namespace editor
