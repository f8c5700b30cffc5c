#pragma once

#include "HeadShape.h"
#include "Pose.h"
#include "Scene.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Cross-section of the drum along its wires: shell, moving heads, wires, stick. */
class SectionView : public juce::Component
{
public:
    SectionView();

    void setScene (const Scene&);
    void setPose (const Pose&);
    void setCaption (const juce::String&);

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { repaint(); }

private:
    void place();
    void drawShell (juce::Graphics&) const;
    void drawHead (juce::Graphics&, bool isBatter) const;
    void drawWires (juce::Graphics&) const;
    void drawStick (juce::Graphics&) const;
    void drawWords (juce::Graphics&) const;

    float xOf (float share) const noexcept { return drum.getCentreX() + 0.5f * share * drum.getWidth(); }

    Scene scene;
    Pose pose;
    juce::String caption;
    std::unique_ptr<SectionShape> shape, batterShape; ///< along the wires, and along the batter's cut
    double batterAngle = 0.0;
    const void* shapeOf = nullptr;
    std::vector<float> batterLine, resonantLine; ///< scaled displacements, -1 to 1
    juce::Rectangle<float> drum;                 ///< between the heads and the bearing edges
    float swing = 10.0f;                         ///< pixels for a displacement of 1
};

} // namespace editor
