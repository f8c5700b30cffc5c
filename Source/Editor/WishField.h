#pragma once

#include "ValueBinding.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** One wish on one line: its name and what is typed for it, "D3:E3". Empty: no wish. */
class WishField : public juce::Component
{
public:
    explicit WishField (const ControlText&);

    std::function<void()> onEntered; ///< called when the text was changed and Return pressed or the field left

    juce::String text() const { return entry.getText().trim(); }
    void setText (const juce::String&);

    /** What is shown while the field is empty: an example, or a wish of the song. */
    void setExample (const juce::String&);

    /** Whether the text could not be read. */
    void setRefused (bool);

    juce::TextEditor& entryField() noexcept { return entry; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override;

private:
    void enter();

    juce::String name, example, entered;
    juce::TextEditor entry;
    bool isRefused = false;
};

} // namespace editor
