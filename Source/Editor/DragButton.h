#pragma once

#include "CommandButton.h"

namespace editor
{

/** A button that can also be dragged out of the window. */
class DragButton : public CommandButton
{
public:
    using CommandButton::CommandButton;

    /** Called once in a drag, when the mouse has left the place where it was pressed. */
    std::function<void (const juce::MouseEvent&)> onDragOut;

    void mouseDown (const juce::MouseEvent& event) override
    {
        isDragged = false;
        CommandButton::mouseDown (event);
    }

    void mouseDrag (const juce::MouseEvent& event) override
    {
        constexpr int clearly = 8; // px
        CommandButton::mouseDrag (event);
        if (! isDragged && onDragOut && event.getDistanceFromDragStart() > clearly)
        {
            isDragged = true;
            onDragOut (event);
        }
    }

private:
    bool isDragged = false;
};

} // namespace editor
