#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Words that change, on as many lines as they need: drawn, and read out by a screen reader. */
class TextLine : public juce::Component
{
public:
    enum class Weight
    {
        quiet,  ///< explains
        strong, ///< a value that matters
        warning ///< something was refused
    };

    /** @param justification  of every line */
    explicit TextLine (juce::Justification justification = juce::Justification::topLeft);

    void setText (const juce::String&, Weight);
    juce::String text() const { return words; }

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    juce::Justification where;
    juce::String words;
    Weight weight = Weight::quiet;
};

} // namespace editor
