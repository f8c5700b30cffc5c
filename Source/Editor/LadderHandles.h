#pragma once

#include "DragControl.h"
#include "PitchScale.h"

#include "Modal/pitch/Note.h"

namespace editor
{

/** A tap note of a head or the drum note, on the ladder: a MIDI note number with fractions. It is dragged by semitones, with
   Shift held by cents. */
class NoteHandle : public DragControl
{
public:
    enum class Kind
    {
        batter,
        resonant,
        drumNote
    };

    NoteHandle (Kind, ControlText, ValueBinding);

    /** The scale it is dragged along. */
    void setScale (const PitchScale& newScale, modal::ConcertPitch newPitch);

    void paint (juce::Graphics&) override;

protected:
    double draggedTo (double grabbed, const juce::MouseEvent&) const override;

private:
    Kind kind;
    PitchScale scale;
    modal::ConcertPitch pitch;
};

/** The interval between the heads. Its value is the interval; dragging it moves both heads and keeps the interval. */
class GapHandle : public DragControl
{
public:
    /** @param interval  semitones
        @param batter    the batter's note, which a drag moves together with the resonant head's */
    GapHandle (ControlText, ValueBinding interval, ValueBinding batter);

    void setPixelsPerSemitone (float pixels) noexcept { semitone = pixels; }

    void paint (juce::Graphics&) override;

protected:
    double draggedTo (double grabbed, const juce::MouseEvent&) const override;

private:
    float semitone = 10.0f;
};

} // namespace editor
