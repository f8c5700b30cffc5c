#include "LadderView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/pitch/Interval.h"

#include <algorithm>
#include <cmath>

namespace editor
{
LadderView::LadderView (Bindings bindings)
    : batter (NoteHandle::Kind::batter, strings::batterNote(), bindings.batter),
      resonant (NoteHandle::Kind::resonant, strings::resonantNote(), bindings.resonant),
      drumNote (NoteHandle::Kind::drumNote, strings::drumNoteHandle(), bindings.drumNote),
      gap (strings::interval(), bindings.interval, bindings.together)
{
    setTitle (strings::ladderTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    addAndMakeVisible (modes);
    addAndMakeVisible (gap);
    addAndMakeVisible (batter);
    addAndMakeVisible (resonant);
    addAndMakeVisible (drumNote);
    batter.setExplicitFocusOrder (1);
    resonant.setExplicitFocusOrder (2);
    gap.setExplicitFocusOrder (3);
    drumNote.setExplicitFocusOrder (4);
}

void LadderView::setScene (const Scene& newScene)
{
    scene = newScene;
    modes.setScene (scene);
    resonant.setVisible (scene.now == nullptr || scene.now->drum.hasResonantHead());
    gap.setVisible (resonant.isVisible());
    refreshHandles();
    repaint();
}

void LadderView::setConcertPitch (modal::ConcertPitch newPitch)
{
    if (newPitch.a4 == pitch.a4)
        return;
    pitch = newPitch;
    resized();
    repaint();
}

void LadderView::resized()
{
    layout = LadderLayout (getLocalBounds());
    highest = 0.0; // choose afresh
    refreshHandles();
}

/** Keeps the range as long as all notes and main modes fit: a scale that moves during a drag cannot be read. The first prediction
    chooses it afresh, so that a window opened before the drum is solved looks like one opened after. */
void LadderView::chooseRange()
{
    double low = hertzOfMidi (std::min (batter.binding().get(), resonant.binding().get()), pitch), high = low;
    const auto take = [&] (double hertz)
    {
        low = std::min (low, hertz);
        high = std::max (high, hertz);
    };
    take (hertzOfMidi (std::max (batter.binding().get(), resonant.binding().get()), pitch));
    for (const auto& prediction : { scene.now, scene.before })
    {
        if (prediction == nullptr)
            continue;
        take (prediction->batter.tapNote);
        if (prediction->drum.hasResonantHead())
            take (prediction->resonant.tapNote);
        for (const int mode : mainModes (*prediction))
            take (prediction->modes[static_cast<std::size_t> (mode)].frequency);
    }
    constexpr double semitone = 1.0594630943592953;
    const bool fits = highest > 0.0 && low >= lowest * semitone && high <= highest / semitone;
    const bool isLoose = highest > 0.0 && std::log2 (highest / lowest) > 1.5 * std::log2 (high / low) + 1.0;
    const bool isHeld =
        batter.isMouseButtonDown() || resonant.isMouseButtonDown() || gap.isMouseButtonDown() || drumNote.isMouseButtonDown();
    const bool isFirstPrediction = scene.now != nullptr && ! isRangeOfPrediction;
    if (highest > 0.0 && ((fits && ! isLoose && ! isFirstPrediction) || isHeld))
        return;
    isRangeOfPrediction = scene.now != nullptr;
    const double room = std::max (std::pow (semitone, 3.0), 4.0 / (high / low) > 1.0 ? std::sqrt (4.0 / (high / low)) : 1.0);
    lowest = low / room;
    highest = high * room;
}

void LadderView::refreshHandles()
{
    if (getWidth() == 0)
        return;
    chooseRange();
    scale = PitchScale (lowest, highest, layout.plot.getY(), layout.plot.getBottom());
    drawnBatter = batter.binding().get();
    drawnResonant = resonant.binding().get();
    batter.setScale (scale, pitch);
    resonant.setScale (scale, pitch);
    modes.setScale (scale, pitch, layout);
    drumNote.setScale (scale, pitch);
    drumNote.setVisible (! modes.drumNoteLabel().isEmpty());
    drumNote.setBounds (modes.drumNoteLabel().toNearestInt());
    drumNote.repaint();
    gap.setPixelsPerSemitone (scale.pixelsPerSemitone());

    const auto place = [&] (juce::Component& pill, float x, double note)
    {
        pill.setBounds (juce::Rectangle<float> (layout.pillWidth, layout.pillHeight)
                            .withCentre ({ x, scale.yOf (hertzOfMidi (note, pitch)) })
                            .toNearestInt());
    };
    place (batter, layout.batterRail, drawnBatter);
    place (resonant, layout.resonantRail, drawnResonant);

    // The interval stands between the tags, or above them if there is no room.
    const float upper = static_cast<float> (std::min (batter.getY(), resonant.getY()));
    const float between = static_cast<float> (std::max (batter.getY(), resonant.getY())) - upper - layout.pillHeight;
    const float height = 42.0f;
    const float middle = between >= height + 4.0f ? upper + layout.pillHeight + 0.5f * between : upper - 0.5f * height - 6.0f;
    const auto left = static_cast<float> (batter.getX()), right = static_cast<float> (resonant.getRight());
    gap.setBounds (juce::Rectangle<float> (left, middle - 0.5f * height, right - left, height)
                       .constrainedWithin (getLocalBounds().toFloat())
                       .toNearestInt());
    batter.repaint();
    resonant.repaint();
    repaint();
}

void LadderView::paint (juce::Graphics& g)
{
    drawScale (g);
    if (gap.isVisible())
    {
        drawSpan (g);
        drawIntervalNames (g);
    }
    drawBefore (g);
}

void LadderView::drawScale (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const bool isRoomy = scale.pixelsPerSemitone() >= 13.0f;
    g.setFont (fonts::small());
    const int first = static_cast<int> (std::ceil (midiOfHertz (lowest, pitch)));
    const int last = static_cast<int> (std::floor (midiOfHertz (highest, pitch)));
    for (int midi = first; midi <= last; ++midi)
    {
        const float y = scale.yOf (hertzOfMidi (midi, pitch));
        const bool isC = midi % 12 == 0;
        g.setColour (theme.line.withMultipliedAlpha (isC ? 1.0f : isNatural (midi) ? 0.65f : 0.25f));
        g.fillRect (layout.plot.getX(), y - 0.5f, layout.plot.getWidth(), isC ? 1.5f : 1.0f);
        if (isNatural (midi) ? (isRoomy || isC || scale.pixelsPerSemitone() > 7.0f) : scale.pixelsPerSemitone() >= 18.0f)
        {
            g.setColour (isC ? theme.ink : theme.quiet);
            g.drawText (noteOfMidi (midi), layout.scale.withY (y - 8.0f).withHeight (16.0f).withTrimmedRight (6.0f),
                        juce::Justification::centredRight, false);
        }
    }
    for (const auto& [x, colour] :
         { std::pair{ layout.batterRail, theme.batter }, std::pair{ layout.resonantRail, theme.resonant } })
    {
        if (x == layout.resonantRail && ! resonant.isVisible())
            continue;
        g.setColour (colour.withAlpha (0.35f));
        g.fillRect (x - 0.75f, layout.plot.getY(), 1.5f, layout.plot.getHeight());
    }
}

void LadderView::drawSpan (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const float from = scale.yOf (hertzOfMidi (drawnBatter, pitch)), to = scale.yOf (hertzOfMidi (drawnResonant, pitch));
    juce::Path span;
    span.startNewSubPath (layout.batterRail, from);
    span.lineTo (layout.resonantRail, from);
    span.lineTo (layout.resonantRail, to);
    span.lineTo (layout.batterRail, to);
    span.closeSubPath();
    g.setGradientFill ({ theme.batter.withAlpha (0.20f), layout.batterRail, from, theme.resonant.withAlpha (0.20f),
                         layout.resonantRail, to, false });
    g.fillPath (span);
    g.setColour (theme.batter.withAlpha (0.7f));
    g.drawLine (layout.batterRail, from, layout.resonantRail, from, 1.5f);
    g.setColour (theme.resonant.withAlpha (0.7f));
    g.drawLine (layout.batterRail, to, layout.resonantRail, to, 1.5f);
}

void LadderView::drawIntervalNames (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const double span = drawnResonant - drawnBatter;
    const bool isRoomy = scale.pixelsPerSemitone() >= 12.0f;
    g.setFont (fonts::small());
    for (const auto& named : modal::namedIntervals())
    {
        const bool isHere = std::abs (span - named.semitones) < 0.5;
        const bool isPlain =
            named.semitones == 0 || named.semitones == 4 || named.semitones == 5 || named.semitones == 7 || named.semitones == 12;
        if (! isRoomy && ! isPlain && ! isHere)
            continue;
        const float y = scale.yOf (hertzOfMidi (drawnBatter + named.semitones, pitch));
        if (y < layout.plot.getY() || y > layout.plot.getBottom())
            continue;
        g.setColour (isHere ? theme.resonant : theme.quiet);
        g.drawText (named.shortName, juce::Rectangle<float> (layout.namesLeft, y - 7.0f, 24.0f, 14.0f),
                    juce::Justification::centredLeft, false);
    }
}

void LadderView::drawBefore (juce::Graphics& g) const
{
    if (scene.before == nullptr)
        return;
    const auto& theme = themeOf (*this);
    g.setColour (theme.quiet);
    const float dashes[] = { 4.0f, 3.0f };
    const auto ghost = [&] (float x, double hertz)
    {
        if (hertz <= 0.0)
            return;
        juce::Path outline, dashed;
        outline.addRoundedRectangle (
            juce::Rectangle<float> (layout.pillWidth - 4.0f, layout.pillHeight - 4.0f).withCentre ({ x, scale.yOf (hertz) }),
            4.0f);
        juce::PathStrokeType (1.2f).createDashedStroke (dashed, outline, dashes, 2);
        g.fillPath (dashed);
    };
    ghost (layout.batterRail, scene.before->batter.tapNote);
    if (scene.before->drum.hasResonantHead())
        ghost (layout.resonantRail, scene.before->resonant.tapNote);
}

} // namespace editor
