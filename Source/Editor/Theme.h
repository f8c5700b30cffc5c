#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The colours of the window, named by their meaning.

    Batter, resonant and drum keep apart for every common kind of colour vision (blue, vermilion and green of Okabe and Ito's
    palette, 2008, darkened or lightened for contrast); none of them is the only carrier of a meaning. */
struct Theme
{
    juce::Colour paper;    ///< behind everything
    juce::Colour sheet;    ///< behind a view
    juce::Colour ink;      ///< text and main lines
    juce::Colour quiet;    ///< secondary text; at least 4.5:1 on paper and sheet
    juce::Colour mark;     ///< marks that carry meaning; at least 3:1 on paper and sheet
    juce::Colour line;     ///< hairlines and scales
    juce::Colour batter;   ///< the struck head
    juce::Colour resonant; ///< the head with the wires
    juce::Colour drum;     ///< the whole drum
    juce::Colour caution;  ///< near a limit
    bool isDark;

    static const Theme& light();
    static const Theme& dark();

    /** A level from 0 (as faint as can be shown) to 1, in the picture of a sound: ever darker in the light theme and ever lighter
        in the dark one, so that brightness alone tells levels apart. */
    juce::Colour level (float strength) const;

    /** Upward and downward displacement of a head, -1 to 1. */
    juce::Colour displacement (float amount) const;
};

/** Contrast of two colours as WCAG 2 defines it, 1 to 21. */
double contrast (juce::Colour, juce::Colour);

} // namespace editor
