#pragma once

#include "ValueControl.h"

namespace editor
{

/** A value that the mouse drags up and down: a drag begins where the value stands and is one step of undo. */
class DragControl : public ValueControl
{
public:
    DragControl (ControlText, ValueBinding);

    /** @param dragged  what the mouse moves, where that is not the value that is shown and typed */
    DragControl (ControlText, ValueBinding shown, ValueBinding dragged);

    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;

protected:
    /** The value that a drag asks for which began at `grabbed`. */
    virtual double draggedTo (double grabbed, const juce::MouseEvent&) const = 0;

private:
    ValueBinding moved;
    double start = 0.0;
};

} // namespace editor
