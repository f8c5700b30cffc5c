#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The letters of the window: the family that was built in, so that it looks the same on every machine and also on one that has
    no fonts; null if the build found none, in which case JUCE's default sans serves. */
juce::Typeface::Ptr typefaceFor (const juce::Font&);

} // namespace editor
