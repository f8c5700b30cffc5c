#pragma once

#include <juce_graphics/juce_graphics.h>

namespace editor
{

/** What the left part of the window shows. */
enum class Page
{
    heads,
    sound,
    map,
    setUp,
    listen
};

/** Positions of the views in a window of a given size. Larger windows keep this arrangement and are scaled up. */
struct Layout
{
    Layout (int width, int height, Page);

    juce::Rectangle<int> header, section, batter, resonant, map, setUp, listen, ladder, result, spectrum, decay, kept, audition, patterns, hint;
    bool hasSoundStrip = false; ///< spectrum and decay have their own strip and need no page
};

/** Scale factor for a window of this many pixels: 1 to 3.2. */
float magnification (int width, int height);

inline constexpr int smallestWidth = 800, smallestHeight = 500, largestWidth = 3840, largestHeight = 2160;

} // namespace editor
