#include "ModeColumn.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{

const modal::Mode& modeAt (const modal::Prediction& prediction, int index)
{
    return prediction.modes[static_cast<std::size_t> (index)];
}

bool haveSameName (const modal::Mode& a, const modal::Mode& b)
{
    return a.m == b.m && a.n == b.n && (a.headCorrelation > 0.0) == (b.headCorrelation > 0.0);
}

/** Modes that share one label, highest first: the two halves of a split pair do. */
std::vector<std::vector<int>> labelsOf (const modal::Prediction& prediction, const std::vector<int>& main)
{
    constexpr double semitone = 1.06;
    std::vector<std::vector<int>> names;
    for (const int i : main)
    {
        const auto& mode = modeAt (prediction, i);
        const bool isPartner = ! names.empty() && haveSameName (modeAt (prediction, names.back().front()), mode) &&
                               modeAt (prediction, names.back().front()).frequency < semitone * mode.frequency;
        if (isPartner)
            names.back().push_back (i);
        else
            names.push_back ({ i });
    }
    return names;
}

} // namespace

std::vector<int> mainModes (const modal::Prediction& prediction)
{
    std::vector<int> found;
    for (const auto& pair : { prediction.breathing, prediction.rocking })
        for (const int mode : { pair.lower, pair.upper })
            if (mode >= 0)
                found.push_back (mode);
    std::sort (found.begin(), found.end(),
               [&] (int a, int b) { return modeAt (prediction, a).frequency > modeAt (prediction, b).frequency; });
    return found;
}

void ModeColumn::setScene (const Scene& newScene)
{
    scene = newScene;
    repaint();
}

void ModeColumn::setScale (const PitchScale& newScale, modal::ConcertPitch newPitch, const LadderLayout& newLayout)
{
    scale = newScale;
    pitch = newPitch;
    layout = newLayout;
    setBounds (juce::Rectangle<float> (layout.modesLeft - 6.0f, 0.0f, layout.modesRight - layout.modesLeft + 6.0f,
                                       layout.plot.getBottom() + layout.plot.getY())
                   .toNearestInt());
    repaint();
}

void ModeColumn::setHighlight (int mode)
{
    if (mode != highlight)
        repaint();
    highlight = mode;
}

void ModeColumn::mouseMove (const juce::MouseEvent& event)
{
    int nearest = -1;
    float best = 7.0f; // pixels
    for (int i = 0; scene.now != nullptr && i < static_cast<int> (scene.now->modes.size()); ++i)
    {
        const float y = scale.yOf (modeAt (*scene.now, i).frequency) - static_cast<float> (getY());
        if (const float away = std::abs (y - event.position.y); away < best)
        {
            best = away;
            nearest = i;
        }
    }
    if (onHover)
        onHover (nearest);
}

void ModeColumn::mouseExit (const juce::MouseEvent&)
{
    if (onHover)
        onHover (-1);
}

void ModeColumn::paint (juce::Graphics& g)
{
    if (scene.now == nullptr)
        return;
    g.setOrigin (-getPosition()); // the layout's coordinates are the parent's
    const auto main = mainModes (*scene.now);
    drawTicks (g, main);
    for (const auto& label : labels())
    {
        for (const int i : label.modes)
            drawMainMode (g, i, label.area.getCentreY());
        if (! isDrumNote (label))
            drawLabel (g, label.modes, label.area);
    }
}

std::vector<ModeColumn::Label> ModeColumn::labels() const
{
    constexpr float height = 34.0f;
    const auto named = labelsOf (*scene.now, mainModes (*scene.now));
    std::vector<float> wanted;
    for (const auto& modes : named)
        wanted.push_back (scale.yOf (modeAt (*scene.now, modes.front()).frequency));
    const auto middles = spreadLabels (wanted, height, layout.plot.getY(), layout.plot.getBottom());
    std::vector<Label> found;
    for (std::size_t k = 0; k < named.size(); ++k)
        found.push_back (
            { named[k], { layout.labelLeft, middles[k] - 0.5f * height, layout.modesRight - layout.labelLeft, height } });
    return found;
}

bool ModeColumn::isDrumNote (const Label& label) const
{
    return std::abs (modeAt (*scene.now, label.modes.front()).frequency - scene.now->drumNote) < 0.01;
}

juce::Rectangle<float> ModeColumn::drumNoteLabel() const
{
    constexpr float widest = 132.0f;
    if (scene.now != nullptr)
        for (const auto& label : labels())
            if (isDrumNote (label))
                return label.area.withWidth (juce::jmin (widest, label.area.getWidth()));
    return {};
}

void ModeColumn::drawTicks (juce::Graphics& g, const std::vector<int>& except) const
{
    const auto& theme = themeOf (*this);
    for (int i = 0; i < static_cast<int> (scene.now->modes.size()); ++i)
    {
        const auto& mode = modeAt (*scene.now, i);
        if (mode.frequency < scale.lowest() || mode.frequency > scale.highest() ||
            std::find (except.begin(), except.end(), i) != except.end())
            continue;
        const bool isLit = i == highlight;
        g.setColour (isLit ? theme.ink : mode.isAirMode ? theme.mark : theme.quiet);
        g.fillRect (layout.modesLeft, scale.yOf (mode.frequency) - (isLit ? 1.25f : 0.5f),
                    isLit ? layout.tickLength : 0.5f * layout.tickLength, isLit ? 2.5f : 1.0f);
    }
}

/** A mode's tick, the line to its label, and its former place. */
void ModeColumn::drawMainMode (juce::Graphics& g, int index, float labelY) const
{
    const auto& theme = themeOf (*this);
    const auto& mode = modeAt (*scene.now, index);
    const float at = scale.yOf (mode.frequency);
    const bool isLit = index == highlight;
    g.setColour (theme.drum);
    g.fillRect (layout.modesLeft, at - (isLit ? 2.0f : 1.25f), layout.tickLength, isLit ? 4.0f : 2.5f);
    g.setColour (theme.drum.withAlpha (0.5f));
    g.drawLine (layout.modesLeft + layout.tickLength, at, layout.labelLeft - 3.0f, labelY, 1.0f);
    if (scene.before == nullptr)
        return;
    // The former place of the mode with the same name, and an arrow from there.
    for (const int i : mainModes (*scene.before))
    {
        const auto& was = modeAt (*scene.before, i);
        if (! haveSameName (was, mode))
            continue;
        const float y = scale.yOf (was.frequency);
        g.setColour (theme.quiet);
        for (float x = layout.modesLeft; x < layout.modesLeft + layout.tickLength - 2.0f; x += 6.0f)
            g.fillRect (x, y - 0.75f, 3.5f, 1.5f);
        if (std::abs (y - at) > 3.0f)
            g.drawArrow ({ layout.modesLeft + 0.5f * layout.tickLength, y, layout.modesLeft + 0.5f * layout.tickLength, at },
                         1.2f, 6.0f, 5.0f);
    }
}

/** Two lines: the note, and below it the frequency with what there is room for. */
void ModeColumn::drawLabel (juce::Graphics& g, const std::vector<int>& modes, juce::Rectangle<float> area) const
{
    const auto& theme = themeOf (*this);
    const auto& now = *scene.now;
    const auto& mode = modeAt (now, modes.front());
    const auto title = juce::String (modal::nameOf (mode)) + " " + noteName (mode.frequency, pitch);
    const auto hertz = fixed (mode.frequency, 0) + " Hz";
    auto detail = modes.size() > 1 ? strings::splitPair (mode.frequency - modeAt (now, modes.back()).frequency)
                                   : hertz + strings::afterComma (strings::sharing (now, mode));
    if (0.73f * fonts::small().getStringWidthFloat (detail) > area.getWidth())
        detail = hertz;
    area = area.withSizeKeepingCentre (area.getWidth(), 30.0f);
    const auto write = [&] (const juce::String& words, const juce::Font& font, juce::Colour colour, juce::Rectangle<float> line)
    {
        // Hides the scale's lines behind the text.
        g.setColour (theme.paper);
        g.fillRect (line.withWidth (juce::jmin (line.getWidth(), font.getStringWidthFloat (words) + 3.0f)).reduced (0.0f, 1.0f));
        g.setColour (colour);
        g.setFont (font);
        g.drawFittedText (words, line.toNearestInt(), juce::Justification::centredLeft, 1, 0.65f);
    };
    write (title, fonts::strong(), theme.drum, area.removeFromTop (16.0f));
    write (detail, fonts::small(), theme.quiet, area);
}

} // namespace editor
