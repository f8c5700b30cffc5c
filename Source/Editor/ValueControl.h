#pragma once

#include "ValueBinding.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** A control that holds a number: dragged, stepped with the arrow keys, or typed after Return or a double click.

    Subclasses draw it and say how far a drag of the mouse moves it. */
class ValueControl : public juce::Component, public juce::SettableTooltipClient
{
public:
    ValueControl (ControlText, ValueBinding);
    ~ValueControl() override;

    const ControlText& text() const noexcept { return words; }
    const ValueBinding& binding() const noexcept { return bound; }

    juce::String valueText() const { return bound.toText (bound.get()); }

    /** As if it had been typed; returns why it was refused, or nothing. */
    juce::String typeIn (const juce::String&);

    void openEntry();
    bool isEntryOpen() const noexcept { return entry != nullptr; }

    /** The value that a press of a key asks for. */
    bool keyPressed (const juce::KeyPress&) override;
    void mouseDoubleClick (const juce::MouseEvent&) override;
    void focusGained (FocusChangeType) override;
    void focusLost (FocusChangeType) override;
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

    /** Tells of text that was refused: the reason, in one sentence. */
    std::function<void (const juce::String&)> onRefused;

protected:
    /** Where the entry opens. */
    virtual juce::Rectangle<int> entryArea() const { return getLocalBounds(); }

    void beginChange();
    void endChange();
    void change (double value) { change (bound, value); }

    /** Sets a value, and says so where it stopped at a limit. */
    void change (const ValueBinding&, double value);

private:
    void closeEntry (bool keeps);

    ControlText words;
    ValueBinding bound;
    std::unique_ptr<juce::TextEditor> entry;
    bool isChanging = false;
};

} // namespace editor
