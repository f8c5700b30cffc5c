#pragma once

#include "DragControl.h"

namespace editor
{

/** A number in a box: dragged up and down, stepped or typed. */
class ValueBox : public DragControl
{
public:
    ValueBox (ControlText, ValueBinding);

    void paint (juce::Graphics&) override;

protected:
    double draggedTo (double grabbed, const juce::MouseEvent&) const override;
};

} // namespace editor
