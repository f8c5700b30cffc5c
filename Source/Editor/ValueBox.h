#pragma once

#include "ValueControl.h"

namespace editor
{

/** A number in a box: dragged up and down, stepped or typed. */
class ValueBox : public ValueControl
{
public:
    ValueBox (ControlText, ValueBinding);

    void paint (juce::Graphics&) override;
    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;

private:
    double grabbed = 0.0;
};

} // namespace editor
