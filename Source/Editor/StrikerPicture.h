#pragma once

#include "Modal/hardware/Stick.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Draws what a drum is played with from its own numbers: taper and tip of a stick, the ball of a mallet, the rods of a bundle, the fan of
    a brush. The tip is at the left; all are to one scale, the longest as wide as the area, and drawn twice as thick as they are. */
void drawStriker (juce::Graphics&, const modal::StickSpec&, juce::Rectangle<float> area, juce::Colour);

} // namespace editor
