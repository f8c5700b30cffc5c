#pragma once

#include "Plugin/Processor.h"

namespace editor
{

/** How far the heads of the drum that is set can be tuned. Worked out when it is asked for and the drum is another. Message
 * thread.
 */
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

    /** Without limits where there is no resonant head. */
    Range resonant() { return of (modal::HeadSide::resonant); }

    /** "The batter head reaches from A0 to D5: above, its film would yield." */
    juce::String sentence (modal::HeadSide);

private:
    Range of (modal::HeadSide);
    void refresh();

    plugin::Processor& processor;
    std::optional<plugin::Values> workedOutFor; ///< with all that says how the drum is tuned left out
    Range ranges[2]{};
};

} // namespace editor
