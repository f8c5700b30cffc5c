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

    /** A message that stays for some seconds. */
    void say (const juce::String& message, bool isRefusal);

    /** Something was done: what was refused before it is no longer of interest. */
    void endRefusal();

    juce::String shown() const { return words; }

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    void timerCallback() override;
    juce::String explained();
    void show (const juce::String&, bool isRefusal);

    juce::Component& parent;
    juce::String words;
    bool isWarning = false;
    juce::Point<float> mousePlace;
    juce::Component* focused = nullptr; ///< only compared, never called
    bool followsKeyboard = false;       ///< the keyboard moved last, not the mouse
    juce::uint32 holdsUntil = 0;
};

} // namespace editor
