#pragma once

#include "ValueControl.h"

#include "Modal/Head.h"

namespace editor
{

/** One lug beside a head: dragged up it sharpens the note beside it, dragged down it flattens it. Its number is in cents. */
class LugHandle : public ValueControl
{
public:
    LugHandle (modal::HeadSide, int number, ControlText, ValueBinding cents);

    int number() const noexcept { return lugNumber; }

    void paint (juce::Graphics&) override;
    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;

private:
    modal::HeadSide side;
    int lugNumber;
    double grabbed = 0.0;
};

} // namespace editor
