#pragma once

#include "DragControl.h"
#include "PitchScale.h"

#include "Modal/Head.h"
#include "Modal/Note.h"

namespace editor
{

/** How far a pitch is drawn to a named interval while it is dragged, semitones. Alt held while dragging lets go of it. */
inline constexpr double snapReach = 0.2;

/** A head's tap note on the ladder: a MIDI note number with fractions. */
class NoteHandle : public DragControl
{
public:
    NoteHandle (modal::HeadSide, ControlText, ValueBinding);

    /** The scale it is dragged along, and the note from which named intervals are measured for snapping. */
    void setScale (const PitchScale& newScale, modal::ConcertPitch newPitch, std::function<double()> otherNote);

    void paint (juce::Graphics&) override;

protected:
    double draggedTo (double grabbed, const juce::MouseEvent&) const override;

private:
    modal::HeadSide side;
    PitchScale scale;
    modal::ConcertPitch pitch;
    std::function<double()> other;
};

/** The distance between the heads: dragged as a whole it moves both and keeps the interval; its number is the interval. */
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
