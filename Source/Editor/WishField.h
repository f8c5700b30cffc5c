#pragma once

#include "ValueBinding.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** A name and what is typed for it, on one line: a wish, "D3:E3", or a note that was read. May be empty. */
class WishField : public juce::Component
{
public:
    explicit WishField (const ControlText&);

    std::function<void()> onEntered; ///< called when the text was changed and Return pressed or the field left

    juce::String text() const { return entry.getText().trim(); }
    void setText (const juce::String&);

    /** What is shown while the field is empty: an example, or a wish of the song. */
    void setExample (const juce::String&);

    /** Passes what is typed to `reader`, with plain signs; nothing if the field is empty. Marks the field if that throws a
        modal::InputError, and returns its message, otherwise an empty one. */
    juce::String read (const std::function<void (const std::string& typed)>& reader);

    juce::TextEditor& entryField() noexcept { return entry; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override;

private:
    void enter();
    void setRefused (bool);

    juce::String name, example, entered;
    juce::TextEditor entry;
    bool isRefused = false;
};

} // namespace editor
