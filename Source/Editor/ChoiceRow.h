#pragma once

#include "ValueControl.h"

namespace editor
{

/** Draws one line of a form: name at the left, value at the right, and the frame of the keyboard focus. */
void drawFormLine (juce::Graphics&, const juce::Component&, const juce::String& name, const juce::String& value);

/** Draws the choice of that index, -1 for what is set now. */
using ChoicePicture = std::function<void (juce::Graphics&, int index, juce::Rectangle<float>, juce::Colour)>;

/** Opens a menu beside a component.

    @param now      index of the choice that is ticked; -1 for none
    @param choose   called with the index of the choice, if one is made while the component exists
    @param picture  stands before each name; may be empty */
void offerChoices (juce::Component& beside, const juce::StringArray& choices, int now, std::function<void (int)> choose,
                   ChoicePicture picture = {});

/** The value with the sign that a menu opens. */
juce::String withMenuSign (const juce::String& value);

/** A choice by name on one line: click for a menu, step with the arrow keys, or type. */
class ChoiceRow : public ValueControl
{
public:
    /** @param binding  index of a choice, -1 for none of them */
    ChoiceRow (ControlText, ValueBinding, juce::StringArray choices);

    /** Pictures in the menu, and of the present choice on the line. */
    void setPicture (ChoicePicture toDraw) { picture = std::move (toDraw); }

    /** Repaints if the value has changed since it was drawn; always with a picture, which may be of numbers without a name. */
    void refresh();

    void paint (juce::Graphics&) override;
    void enablementChanged() override { repaint(); }
    void mouseDown (const juce::MouseEvent&) override;
    void mouseEnter (const juce::MouseEvent&) override { repaint(); }
    void mouseExit (const juce::MouseEvent&) override { repaint(); }

protected:
    juce::Rectangle<int> entryArea() const override { return getLocalBounds().removeFromRight (getWidth() / 2); }

private:
    juce::StringArray names;
    ChoicePicture picture;
    double drawn = -2.0;
};

} // namespace editor
