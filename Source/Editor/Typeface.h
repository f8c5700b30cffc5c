#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The built-in typeface in the font's weight. */
juce::Typeface::Ptr typefaceFor (const juce::Font&);

} // namespace editor
