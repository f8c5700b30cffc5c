#pragma once

#include "Modal/pitch/Note.h"

#include <juce_core/juce_core.h>

/** Pitches and numbers as the window shows them. */
namespace editor
{

/** "G♯3", without cents. `hertz` above 0. */
juce::String noteName (double hertz, modal::ConcertPitch);

/** "G♯3 +12", cents left out where they round to 0. */
juce::String noteWithCents (double hertz, modal::ConcertPitch);

/** "G♯3 +12" of a MIDI note number with fractions. */
juce::String noteOfMidi (double midi);

/** "G#3 -12" as "G♯3 −12". */
juce::String withMusicSigns (const juce::String&);

/** The notes of a sentence with those signs: "Near G#3 -12" as "Near G♯3 −12". */
juce::String withNoteSigns (const juce::String&);

/** The reverse: what a person typed, with '#', 'b' and '-'. */
juce::String plainSigns (const juce::String&);

double hertzOfMidi (double midi, modal::ConcertPitch);

/** Whether a note has neither sharp nor flat. */
bool isNatural (int midi);

/** "perfect fourth", "major second −39 c", "minor second below". */
juce::String intervalName (double semitones);

/** A number with `decimals` places. */
juce::String fixed (double value, int decimals);

/** "± 3" */
juce::String plusMinus (double value, int decimals);

/** A number with its sign and `decimals` places, with the typographic minus: "+3.2", "−1"; "0" without a sign. */
juce::String withSign (double value, int decimals);

/** A number with `decimals` places and thin spaces between thousands. */
juce::String grouped (double value, int decimals = 0);

} // namespace editor
