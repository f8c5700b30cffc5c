#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The line at the bottom of the window: tooltip of the control under the mouse or with the keyboard focus, and messages. */
class HintLine : public juce::Component, private juce::Timer
{
public:
    /** @param within  the component whose children have tooltips */
    explicit HintLine (juce::Component& within);

    /** Shows a message for some seconds. */
    void say (const juce::String& message, bool isRefusal);

    /** Ends a refusal after the next change. */
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
    juce::Component* focused = nullptr; ///< only compared, never dereferenced
    bool followsKeyboard = false;       ///< the focus moved last, not the mouse
    juce::uint32 holdsUntil = 0;
};

} // namespace editor
