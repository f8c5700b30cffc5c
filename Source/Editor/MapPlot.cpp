#include "MapPlot.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/pitch/Interval.h"

#include <cmath>

namespace editor
{
namespace
{

/** Reads the tuning out; it is set with the arrow keys. */
class SpotText : public juce::AccessibilityTextValueInterface
{
public:
    explicit SpotText (const MapPlot::Tune& how) : tune (how) {}
    bool isReadOnly() const override { return true; }
    juce::String getCurrentValueAsString() const override { return tune.read (tune.get()); }
    void setValueAsString (const juce::String&) override {}

private:
    const MapPlot::Tune& tune;
};

} // namespace

MapPlot::MapPlot (Tune how) : tune (std::move (how))
{
    setTitle (strings::mapTitle);
    setTooltip (strings::mapTip);
    setHelpText (strings::mapTip);
    setWantsKeyboardFocus (true);
    setMouseClickGrabsKeyboardFocus (true);
    setMouseCursor (juce::MouseCursor::CrosshairCursor);
}

void MapPlot::setPicture (std::shared_ptr<const MapPicture> newPicture)
{
    drawn = std::move (newPicture);
    repaint();
}

void MapPlot::setMarks (std::vector<Mark> newMarks)
{
    marks = std::move (newMarks);
    repaint();
}

juce::Rectangle<float> MapPlot::plot() const
{
    return getLocalBounds().toFloat().withTrimmedLeft (34.0f).withTrimmedBottom (18.0f).withTrimmedRight (2.0f).withTrimmedTop (
        2.0f);
}

juce::Point<float> MapPlot::pointOf (TuningSpot spot) const
{
    const auto area = plot();
    const auto share = drawn->frame.shareOf (spot);
    return { area.getX() + share.x * area.getWidth(), area.getY() + share.y * area.getHeight() };
}

TuningSpot MapPlot::spotAt (juce::Point<float> point) const
{
    const auto area = plot();
    return drawn->frame.nearest (
        drawn->frame.spotAt ({ (point.x - area.getX()) / area.getWidth(), (point.y - area.getY()) / area.getHeight() }));
}

void MapPlot::mouseMove (const juce::MouseEvent& event)
{
    if (drawn != nullptr && onRead)
        onRead (plot().contains (event.position) ? tune.read (spotAt (event.position)) : juce::String());
}

void MapPlot::mouseExit (const juce::MouseEvent&)
{
    if (onRead)
        onRead ({});
}

void MapPlot::tuneTo (const juce::MouseEvent& event)
{
    const auto spot = spotAt (event.position);
    if (! event.mods.isAltDown())
        tune.set (spot);
    else if (const auto along = tune.alongContour (grabbed, spot.batter))
        tune.set (*along);
    if (onRead)
        onRead (tune.read (tune.get()));
    repaint();
}

void MapPlot::mouseDown (const juce::MouseEvent& event)
{
    if (drawn == nullptr || ! plot().contains (event.position))
        return;
    grabbed = tune.get();
    isTuning = true;
    tune.begin();
    tuneTo (event);
}

void MapPlot::mouseDrag (const juce::MouseEvent& event)
{
    if (isTuning && event.mouseWasDraggedSinceMouseDown())
        tuneTo (event);
}

void MapPlot::mouseUp (const juce::MouseEvent&)
{
    if (isTuning)
        tune.end();
    isTuning = false;
}

void MapPlot::step (TuningSpot spot)
{
    tune.begin();
    tune.set (drawn->frame.nearest (spot));
    tune.end();
    if (onRead)
        onRead (tune.read (tune.get()));
    repaint();
}

bool MapPlot::keyPressed (const juce::KeyPress& key)
{
    if (drawn == nullptr || key.getModifiers().isCommandDown())
        return false;
    const auto is = [&] (int code) { return key.getKeyCode() == code; };
    if (is (juce::KeyPress::returnKey))
    {
        tune.strike();
        return true;
    }
    auto spot = tune.get();
    const double size = key.getModifiers().isShiftDown() ? 0.1 : 1.0; // semitones
    const double batter = is (juce::KeyPress::rightKey) ? size : is (juce::KeyPress::leftKey) ? -size : 0.0;
    const double interval = is (juce::KeyPress::upKey) ? size : is (juce::KeyPress::downKey) ? -size : 0.0;
    if (batter == 0.0 && interval == 0.0)
        return false;
    if (! key.getModifiers().isAltDown())
        step ({ spot.batter + batter, spot.interval + interval });
    else if (const auto along = tune.alongContour (spot, spot.batter + batter))
        step (*along);
    return true;
}

std::unique_ptr<juce::AccessibilityHandler> MapPlot::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (
        *this, juce::AccessibilityRole::slider,
        juce::AccessibilityActions().addAction (juce::AccessibilityActionType::press, [this] { tune.strike(); }),
        juce::AccessibilityHandler::Interfaces{ std::make_unique<SpotText> (tune) });
}

void MapPlot::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    if (drawn == nullptr)
    {
        g.setColour (theme.quiet);
        g.setFont (fonts::text());
        g.drawFittedText (strings::mapComing, area.toNearestInt(), juce::Justification::centred, 2, 0.8f);
        return;
    }
    g.setImageResamplingQuality (juce::Graphics::highResamplingQuality);
    g.drawImage (drawn->shading, area);
    drawRegions (g);
    drawCautions (g);
    drawContours (g);
    drawAxes (g);
    drawMarks (g);
    g.setColour (theme.line);
    g.drawRect (area, 1.0f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

void MapPlot::drawAxes (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    const auto& frame = drawn->frame;
    g.setFont (fonts::small());
    g.setColour (theme.quiet);
    const float semitone = area.getWidth() / static_cast<float> (frame.highestBatter - frame.lowestBatter);
    const int every = semitone >= 26.0f ? 1 : semitone >= 13.0f ? 2 : semitone >= 6.0f ? 4 : 12;
    for (int midi = static_cast<int> (std::ceil (frame.lowestBatter)); midi <= frame.highestBatter; ++midi)
        if (midi % every == 0)
        {
            const float x = pointOf ({ static_cast<double> (midi), 0.0 }).x;
            g.fillRect (x, area.getBottom(), 1.0f, 4.0f);
            if (x > area.getX() + 12.0f && x < area.getRight() - 12.0f)
                g.drawText (noteOfMidi (midi), juce::Rectangle<float> (x - 20.0f, area.getBottom() + 3.0f, 40.0f, 14.0f),
                            juce::Justification::centred, false);
        }
    const float step = area.getHeight() / static_cast<float> (frame.highestInterval - frame.lowestInterval);
    for (int semitones = static_cast<int> (frame.lowestInterval); semitones <= frame.highestInterval; ++semitones)
    {
        const bool isPlain = semitones == 0 || semitones == 4 || semitones == 7 || semitones == 12 || semitones == -5;
        if (step < 13.0f && ! isPlain)
            continue;
        const float y = juce::jlimit (area.getY() + 6.0f, area.getBottom() - 6.0f,
                                      pointOf ({ frame.lowestBatter, static_cast<double> (semitones) }).y);
        g.drawText (juce::String (modal::Interval{ static_cast<double> (semitones) }.name()),
                    juce::Rectangle<float> (0.0f, y - 7.0f, area.getX() - 5.0f, 14.0f), juce::Justification::centredRight, false);
        g.fillRect (area.getX() - 4.0f, y - 0.5f, 4.0f, 1.0f);
    }
}

void MapPlot::drawContours (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    const auto toPlot = juce::AffineTransform::scale (area.getWidth(), area.getHeight()).translated (area.getX(), area.getY());
    g.setFont (fonts::small());
    const float semitone = area.getWidth() / static_cast<float> (drawn->frame.highestBatter - drawn->frame.lowestBatter);
    for (const auto& contour : drawn->contours)
    {
        auto line = contour.line;
        line.applyTransform (toPlot);
        g.setColour (theme.ink.withAlpha (contour.isNatural ? 0.55f : 0.2f));
        g.strokePath (line, juce::PathStrokeType (contour.isNatural ? 1.2f : 0.8f));
        if (! contour.isNatural ||
            (semitone < 14.0f && ! (contour.note.startsWithChar ('C') || contour.note.startsWithChar ('F'))))
            continue;
        const auto at = contour.label.transformedBy (toPlot);
        const auto label = juce::Rectangle<float> (22.0f, 13.0f).withCentre (at);
        g.setColour (theme.sheet.withAlpha (0.8f));
        g.fillRoundedRectangle (label, 3.0f);
        g.setColour (theme.ink);
        g.drawText (contour.note, label, juce::Justification::centred, false);
    }
}

void MapPlot::drawRegions (juce::Graphics& g) const
{
    constexpr float enough = 0.06f; // of the map, for a line of text
    const auto& theme = themeOf (*this);
    const auto area = plot();
    g.setFont (fonts::small());
    g.setColour (theme.quiet);
    for (const auto& region : drawn->regions)
        if (region.share > enough)
            g.drawFittedText (region.reason,
                              juce::Rectangle<float> (96.0f, 30.0f)
                                  .withCentre ({ area.getX() + region.centre.x * area.getWidth(),
                                                 area.getY() + region.centre.y * area.getHeight() })
                                  .constrainedWithin (area)
                                  .toNearestInt(),
                              juce::Justification::centred, 2, 0.8f);
}

/** Where a head reaches half of its yield strength. */
void MapPlot::drawCautions (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    const auto& frame = drawn->frame;
    const juce::Graphics::ScopedSaveState clipped (g);
    g.reduceClipRegion (area.toNearestInt());
    g.setColour (theme.caution);
    g.setFont (fonts::small());
    const float dashes[] = { 5.0f, 4.0f };
    const auto dashed = [&] (juce::Point<float> from, juce::Point<float> to) {
        g.drawDashedLine ({ from, to }, dashes, 2, 1.3f);
    };
    const auto top = pointOf ({ drawn->batterHalf, frame.highestInterval }),
               bottom = pointOf ({ drawn->batterHalf, frame.lowestInterval });
    dashed (top, bottom);
    g.drawText (strings::halfOfYield, juce::Rectangle<float> (bottom.x - 92.0f, bottom.y - 16.0f, 88.0f, 14.0f),
                juce::Justification::centredRight, false);
    const auto spotAtInterval = [&] (double interval) { return pointOf ({ drawn->resonantHalf - interval, interval }); };
    dashed (spotAtInterval (frame.highestInterval), spotAtInterval (frame.lowestInterval));
}

void MapPlot::drawMarks (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    const auto isShown = [&] (juce::Point<float> at) { return area.expanded (1.0f).contains (at); };
    g.setFont (fonts::small());
    for (const auto& mark : marks)
    {
        const auto at = pointOf (mark.where);
        if (! isShown (at))
            continue;
        g.setColour (theme.sheet);
        g.fillEllipse (juce::Rectangle<float> (9.0f, 9.0f).withCentre (at));
        g.setColour (mark.isKept ? theme.batter : theme.quiet);
        g.drawEllipse (juce::Rectangle<float> (9.0f, 9.0f).withCentre (at), 2.0f);
        g.setColour (theme.ink);
        g.drawText (mark.label, juce::Rectangle<float> (at.x + 6.0f, at.y - 13.0f, 90.0f, 13.0f),
                    juce::Justification::centredLeft, true);
    }
    const auto here = pointOf (tune.get());
    if (! isShown (here))
        return;
    g.setColour (theme.ink);
    g.fillRect (here.x - 10.0f, here.y - 0.75f, 20.0f, 1.5f);
    g.fillRect (here.x - 0.75f, here.y - 10.0f, 1.5f, 20.0f);
    g.drawEllipse (juce::Rectangle<float> (13.0f, 13.0f).withCentre (here), 2.0f);
}

} // namespace editor
