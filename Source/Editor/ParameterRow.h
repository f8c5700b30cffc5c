#pragma once

#include "ValueControl.h"

#include "Plugin/DrumParameter.h"

namespace editor
{

/** A parameter on one line: name, value and a slider below. Drag sideways, use arrow keys, click for a menu, or type. */
class ParameterRow : public ValueControl
{
public:
    ParameterRow (plugin::DrumParameter&, ValueBinding);
    ParameterRow (plugin::DrumParameter&, ControlText, ValueBinding);

    plugin::DrumParameter& parameter() noexcept { return shown; }

    /** Repaints if the value has changed since it was drawn. */
    void refresh();

    /** Whether the name is drawn before the value. */
    void setShowsName (bool shows) { showsName = shows; }

    /** Draws a switch as a button with this label. */
    void setFace (const juce::String& newFace) { face = newFace; }

    void paint (juce::Graphics&) override;
    void enablementChanged() override { repaint(); }
    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;
    void mouseEnter (const juce::MouseEvent&) override { repaint(); }
    void mouseExit (const juce::MouseEvent&) override { repaint(); }

protected:
    juce::Rectangle<int> entryArea() const override;

private:
    bool isSwitch() const { return shown.spec().measure == plugin::Measure::toggle; }
    bool isChoice() const { return shown.spec().measure == plugin::Measure::choice; }
    void drawFace (juce::Graphics&) const;
    float share() const;

    plugin::DrumParameter& shown;
    bool showsName = true;
    juce::String face;
    double drawn = 0.0;
    float grabbed = 0.0f;
};

} // namespace editor
