#include "DragControl.h"

namespace editor
{

DragControl::DragControl (ControlText text, ValueBinding value) : DragControl (std::move (text), value, value) {}

DragControl::DragControl (ControlText text, ValueBinding shown, ValueBinding dragged)
    : ValueControl (std::move (text), std::move (shown)), moved (std::move (dragged))
{
    setMouseCursor (juce::MouseCursor::UpDownResizeCursor);
}

void DragControl::mouseDown (const juce::MouseEvent&)
{
    start = moved.get();
}

void DragControl::mouseDrag (const juce::MouseEvent& event)
{
    if (! event.mouseWasDraggedSinceMouseDown())
        return;
    beginChange();
    change (moved, draggedTo (start, event));
}

void DragControl::mouseUp (const juce::MouseEvent&)
{
    endChange();
}

} // namespace editor
