#pragma once

#include "ValueControl.h"

namespace editor
{

/** A value that is dragged up and down; one drag is one step of undo. */
class DragControl : public ValueControl
{
public:
    DragControl (ControlText, ValueBinding);

    /** @param dragged  the value that the mouse moves, if it differs from the one shown and typed */
    DragControl (ControlText, ValueBinding shown, ValueBinding dragged);

    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;

protected:
    /** The new value of a drag that started at `grabbed`. */
    virtual double draggedTo (double grabbed, const juce::MouseEvent&) const = 0;

private:
    ValueBinding moved;
    double start = 0.0;
};

} // namespace editor
