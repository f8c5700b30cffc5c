#pragma once

#include "Plugin/Processor.h"

namespace editor
{

/** The range of notes that the current drum's heads can be tuned to. Calculated on demand when the drum has changed. Message
    thread. */
class NoteLimits
{
public:
    explicit NoteLimits (plugin::Processor& p) : processor (p) {}

    /** MIDI note numbers with fractions, inwards to a hundredth of a semitone. */
    struct Range
    {
        double low, high;

        double nearest (double note) const { return juce::jlimit (low, juce::jmax (low, high), note); }
        bool contains (double note) const { return note >= low && note <= high; }
        Range movedBy (double semitones) const { return { low + semitones, high + semitones }; }
        Range within (const Range& other) const { return { juce::jmax (low, other.low), juce::jmin (high, other.high) }; }
    };

    Range batter() { return of (modal::HeadSide::batter); }

    /** Unlimited if there is no resonant head. */
    Range resonant() { return of (modal::HeadSide::resonant); }

    /** "Batter head: the range is A0 to D5. Higher would exceed its yield strength." */
    juce::String sentence (modal::HeadSide);

private:
    Range of (modal::HeadSide);
    void refresh();

    plugin::Processor& processor;
    std::optional<plugin::Values> limitsOf; ///< values with the tuning set to 0
    Range ranges[2]{};
};

} // namespace editor
