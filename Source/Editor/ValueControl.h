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

    /** Sets the value from text; returns the reason of a refusal, or nothing. */
    juce::String typeIn (const juce::String&);

    void openEntry();
    bool isEntryOpen() const noexcept { return entry != nullptr; }

    /** Arrow keys step, Home and End go to the limits, Return opens the text entry. */
    bool keyPressed (const juce::KeyPress&) override;
    void mouseDoubleClick (const juce::MouseEvent&) override;
    void focusGained (FocusChangeType) override;
    void focusLost (FocusChangeType) override;
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

    /** Called with the reason when text is refused. */
    std::function<void (const juce::String&)> onRefused;

protected:
    /** Where the entry opens. */
    virtual juce::Rectangle<int> entryArea() const { return getLocalBounds(); }

    void beginChange();
    void endChange();
    void change (double value) { change (bound, value); }

    /** Sets a value and reports if it was limited. */
    void change (const ValueBinding&, double value);

private:
    void closeEntry (bool keeps);

    ControlText words;
    ValueBinding bound;
    std::unique_ptr<juce::TextEditor> entry;
    bool isChanging = false;
};

} // namespace editor
