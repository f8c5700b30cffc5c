#include "StrikerPicture.h"

#include "Modal/DrumNumbers.h"
#include "Modal/hardware/StickOutline.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr float thicker = 2.0f; ///< than long
constexpr int places = 80;      ///< along the outline

/** From m to the picture: along the stick from its tip, and across it from its middle line. */
struct Scale
{
    juce::Rectangle<float> area;
    float pixels; ///< a metre

    juce::Point<float> at (double along, double across) const
    {
        return { area.getX() + pixels * static_cast<float> (along), area.getCentreY() + pixels * static_cast<float> (across) };
    }
};

juce::Path outlineOf (const modal::StickSpec& stick, const Scale& scale)
{
    juce::Path outline;
    std::vector<juce::Point<float>> back;
    for (int i = 0; i <= places; ++i)
    {
        const double along = stick.length * i / places, half = 0.5 * static_cast<double> (thicker) * modal::outlineAt (stick, along);
        if (half <= 0.0)
            continue;
        const auto point = scale.at (along, -half);
        back.empty() ? outline.startNewSubPath (point) : outline.lineTo (point);
        back.push_back (scale.at (along, half));
    }
    for (auto point = back.rbegin(); point != back.rend(); ++point)
        outline.lineTo (*point);
    outline.closeSubPath();
    return outline;
}

/** As many lines as can be told apart, through the width of the bundle or the fan. */
template <class Line>
void drawLines (juce::Graphics& g, double count, float thickness, Line line)
{
    const int lines = juce::jlimit (3, 13, juce::roundToInt (count));
    for (int i = 0; i < lines; ++i)
    {
        const double side = 2.0 * i / (lines - 1) - 1.0; // -1 to 1
        const auto [from, to] = line (side);
        g.drawLine ({ from, to }, thickness);
    }
}

void drawFan (juce::Graphics& g, const modal::StickSpec& brush, const Scale& scale)
{
    const float thickness = juce::jlimit (0.5f, 1.5f, 2.0f * thicker * scale.pixels * static_cast<float> (brush.brushWireDiameter));
    drawLines (g, 0.12 * brush.brushWires, thickness,
               [&] (double side)
               {
                   // The wires are of one length, so that the tips lie on an arc.
                   const double across = 0.5 * side * std::min (brush.brushWidth, 1.6 * brush.brushWireLength);
                   const double along = brush.brushWireLength - std::sqrt (std::pow (brush.brushWireLength, 2) - across * across);
                   return std::pair{ scale.at (along, across), scale.at (brush.brushWireLength, 0.3 * side * brush.diameter) };
               });
}

void drawRods (juce::Graphics& g, const modal::StickSpec& bundle, const Scale& scale)
{
    const double count = bundle.diameter / bundle.rodDiameter, half = 0.5 * (bundle.diameter - bundle.rodDiameter);
    drawLines (g, count, juce::jmax (0.7f, 0.7f * thicker * scale.pixels * static_cast<float> (bundle.rodDiameter)),
               [&] (double side)
               {
                   const double across = static_cast<double> (thicker) * side * half;
                   return std::pair{ scale.at (0.0, across), scale.at (bundle.length, across) };
               });
}

} // namespace

void drawStriker (juce::Graphics& g, const modal::StickSpec& stick, juce::Rectangle<float> area, juce::Colour colour)
{
    const Scale scale{ area, area.getWidth() / static_cast<float> (modal::numberOf (&modal::StickSpec::length).high) };
    g.setColour (colour);
    if (stick.isBrush())
        drawFan (g, stick, scale);
    if (stick.isBundle() && ! stick.isBrush())
    {
        drawRods (g, stick, scale);
        return;
    }
    const auto outline = outlineOf (stick, scale);
    g.fillPath (outline);
    // A tip of another material is hollow.
    if (! stick.isBrush() && stick.tipMaterial != modal::StickSpec::TipMaterial::wood)
    {
        const juce::Graphics::ScopedSaveState saved (g);
        g.reduceClipRegion (area.withWidth (scale.pixels * static_cast<float> (stick.tipLength)).toNearestInt());
        g.setColour (colour.contrasting (0.6f).withAlpha (0.8f));
        g.fillPath (outline);
        g.setColour (colour);
        g.strokePath (outline, juce::PathStrokeType (0.8f));
    }
}

} // namespace editor
