#pragma once

#include "DragControl.h"

#include "Modal/heads/Head.h"

namespace editor
{

/** One lug beside a head: dragged up it sharpens the note beside it, dragged down it flattens it. Its number is in cents. */
class LugHandle : public DragControl
{
public:
    LugHandle (modal::HeadSide, int number, ControlText, ValueBinding cents);

    int number() const noexcept { return lugNumber; }

    void paint (juce::Graphics&) override;

protected:
    double draggedTo (double grabbed, const juce::MouseEvent&) const override;

private:
    modal::HeadSide side;
    int lugNumber;
};

} // namespace editor
