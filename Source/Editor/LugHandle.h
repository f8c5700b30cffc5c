#pragma once

#include "DragControl.h"

#include "Modal/heads/Head.h"

namespace editor
{

/** A lug beside a head: dragging up raises the note beside it, dragging down lowers it. Its value is in cents. */
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
