#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Input meter: recent peak in dB full scale. */
class LevelBar : public juce::Component, public juce::SettableTooltipClient
{
public:
    LevelBar();

    /** The largest sample since the last call, full scale 1; the bar falls slowly. */
    void feed (float peak);
    void clear();

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    float share() const; ///< of the bar

    float level; ///< dB
};

} // namespace editor
