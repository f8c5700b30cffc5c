#pragma once

#include "PitchScale.h"

#include <juce_graphics/juce_graphics.h>

#include <vector>

namespace editor
{

/** Positions on the pitch ladder: note scale, both heads' rails, interval names, modes. */
struct LadderLayout
{
    explicit LadderLayout (juce::Rectangle<int> area);

    juce::Rectangle<float> plot;  ///< rails and modes
    juce::Rectangle<float> scale; ///< note names
    float pillWidth, pillHeight;
    float batterRail, resonantRail; ///< x of the tags' centres
    float namesLeft;                ///< interval names, left edge
    float tickLength, labelLeft;    ///< of modes
    float modesLeft, modesRight;    ///< ticks and labels of modes
};

/** Moves labels apart so that none overlaps, in the same order and as near as possible to their places.

    @param wanted  y of each label's middle, ascending
    @param height  room a label needs
    @return        y of each label's middle, within top and bottom as far as they fit */
std::vector<float> spreadLabels (std::vector<float> wanted, float height, float top, float bottom);

} // namespace editor
