#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The line at the foot of the window: explains what is under the mouse or has the keyboard, and says what was refused. */
class HintLine : public juce::Component, private juce::Timer
{
public:
    /** @param within  the component whose children are explained */
    explicit HintLine (juce::Component& within);

    /** A message that stays until something else is pointed at, but some seconds at least. */
    void say (const juce::String& message, bool isRefusal);

    juce::String shown() const { return words; }

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    void timerCallback() override;
    void show (const juce::String&, bool isRefusal);

    juce::Component& parent;
    juce::String words;
    bool isWarning = false;
    juce::uint32 holdsUntil = 0;
};

} // namespace editor
