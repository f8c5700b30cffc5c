#include "LadderHandles.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/pitch/Interval.h"

#include <cmath>

namespace editor
{
namespace
{

/** The note of a drag: whole semitones, or free with Shift. */
double draggedNote (double note, const juce::MouseEvent& event)
{
    return event.mods.isShiftDown() ? note : std::round (note);
}

} // namespace

NoteHandle::NoteHandle (Kind k, ControlText text, ValueBinding note) : DragControl (std::move (text), std::move (note)), kind (k)
{
}

void NoteHandle::setScale (const PitchScale& newScale, modal::ConcertPitch newPitch)
{
    scale = newScale;
    pitch = newPitch;
}

void NoteHandle::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const bool isBatter = kind == Kind::batter;
    const auto area = getLocalBounds().toFloat().reduced (2.0f);
    const float middle = area.getCentreY(), nose = 7.0f;

    // A tag pointing towards the other head, or to the mode's line, its point at the pitch.
    juce::Path tag;
    const auto body = isBatter ? area.withTrimmedRight (nose) : area.withTrimmedLeft (nose);
    tag.addRoundedRectangle (body.getX(), body.getY(), body.getWidth(), body.getHeight(), 4.0f, 4.0f, isBatter, ! isBatter,
                             isBatter, ! isBatter);
    const float from = isBatter ? body.getRight() : body.getX(), tip = isBatter ? area.getRight() : area.getX();
    tag.addTriangle (from, body.getY(), tip, middle, from, body.getBottom());
    g.setColour (isBatter ? theme.batter : kind == Kind::resonant ? theme.resonant : theme.drum);
    g.fillPath (tag);

    g.setColour (theme.paper);
    auto lines = body.reduced (4.0f, 2.0f);
    const double note = binding().get();
    g.setFont (fonts::strong());
    g.drawFittedText (noteOfMidi (note), lines.removeFromTop (0.54f * lines.getHeight()).toNearestInt(),
                      juce::Justification::centred, 1, 0.75f);
    g.setFont (fonts::small());
    auto hertz = juce::String (hertzOfMidi (note, pitch), 1) + " Hz";
    if (const auto named = hertz + strings::afterComma (strings::drumNoteShort);
        kind == Kind::drumNote && fonts::small().getStringWidthFloat (named) < lines.getWidth())
        hertz = named;
    g.drawFittedText (hertz, lines.toNearestInt(), juce::Justification::centred, 1, 0.75f);
    drawFocus (g, *this, getLocalBounds().toFloat());
}

double NoteHandle::draggedTo (double grabbed, const juce::MouseEvent& event) const
{
    const double note =
        grabbed - static_cast<double> (event.getDistanceFromDragStartY()) / static_cast<double> (scale.pixelsPerSemitone());
    return draggedNote (note, event);
}

GapHandle::GapHandle (ControlText text, ValueBinding interval, ValueBinding batter)
    : DragControl (std::move (text), std::move (interval), std::move (batter))
{
}

void GapHandle::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const modal::Interval interval{ binding().get() };
    const auto area = getLocalBounds().toFloat();
    g.setColour (theme.sheet.withAlpha (0.9f));
    g.fillRoundedRectangle (area.reduced (1.0f), 5.0f);

    auto lines = getLocalBounds().reduced (4, 2);
    g.setColour (theme.ink);
    const auto fits = [&] (const juce::Font& font, const juce::String& text)
    { return 0.75f * font.getStringWidthFloat (text) < static_cast<float> (lines.getWidth()); };
    auto name = intervalName (interval.semitones);
    if (! fits (fonts::strong(), name))
        name = withMusicSigns (juce::String (interval.name()));
    const bool isLarge = fits (fonts::display(), name);
    g.setFont (isLarge ? fonts::display() : fonts::strong());
    g.drawFittedText (name, lines.removeFromTop (lines.getHeight() * 3 / 5), juce::Justification::centred, 1, 0.7f);
    g.setColour (theme.quiet);
    g.setFont (fonts::small());
    const double cents = 100.0 * (interval.semitones - std::round (interval.semitones));
    juce::String detail = withSign (interval.semitones, 2) + " st";
    if (std::abs (cents) < 0.5)
        detail = withSign (interval.semitones, 0) + " st";
    g.drawFittedText (detail + juce::String::fromUTF8 ("  ×") + juce::String (interval.ratio(), 3), lines,
                      juce::Justification::centred, 1, 0.7f);
    drawFocus (g, *this, area);
}

double GapHandle::draggedTo (double grabbed, const juce::MouseEvent& event) const
{
    const double note = grabbed - static_cast<double> (event.getDistanceFromDragStartY()) / static_cast<double> (semitone);
    return draggedNote (note, event);
}

} // namespace editor
