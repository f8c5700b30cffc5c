#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Text that changes, on one or more lines, also for screen readers. */
class TextLine : public juce::Component
{
public:
    enum class Weight
    {
        quiet,  ///< explanations
        large,  ///< the main result
        answer, ///< a sentence that matters, on several lines
        warning ///< refusals and warnings
    };

    /** @param justification  of every line */
    explicit TextLine (juce::Justification justification = juce::Justification::topLeft);

    void setText (const juce::String&, Weight);
    juce::String text() const { return words; }

    /** A name at the left and its value at the right. */
    void setFigure (const juce::String& name, const juce::String& value);

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    void drawLines (juce::Graphics&, juce::Colour, const juce::Font&) const;

    juce::Justification where;
    juce::String words, figure;
    Weight weight = Weight::quiet;
};

} // namespace editor
