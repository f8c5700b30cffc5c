#pragma once

/** A display without a window manager lacks names that JUCE takes for granted. Makes them, for as long as the program runs; does
    nothing without a display. Call before JUCE starts. */
void nameWhatWindowManagersName();
