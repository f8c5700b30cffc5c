#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The built-in typeface, regular or bold. */
juce::Typeface::Ptr typeface (bool isBold);

} // namespace editor
