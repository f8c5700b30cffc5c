#pragma once

#include "HeadShape.h"
#include "LugHandle.h"
#include "Pose.h"
#include "RovingFocus.h"
#include "Scene.h"

namespace editor
{

/** One head seen from above: its motion as colour with nodal lines, and the lugs around it. The batter is struck by a click. */
class HeadView : public juce::Component, public juce::SettableTooltipClient
{
public:
    /** @param lugs  cents, one binding per lug, for the largest number of lugs */
    HeadView (modal::HeadSide, const std::vector<ValueBinding>& lugs);

    void setScene (const Scene&);
    void setPose (const Pose&);
    void refreshLugs();

    /** A stroke at a place: distance as a share of the radius, angle in rad clockwise from lug 1, and how hard: 1 as
        set, up to 3 and down to a third with pressure or modifier keys. */
    std::function<void (double place, double angle, double strength)> onStrike;

    /** Where the last stroke landed. */
    void setStrokePlace (double place, double angle);

    LugHandle& lug (int number) { return *lugs[static_cast<std::size_t> (number - 1)]; }
    int lugCount() const noexcept { return visibleLugs; }

    /** The head's circle, in this component. */
    juce::Rectangle<float> head() const noexcept { return circle; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void mouseDown (const juce::MouseEvent&) override;
    bool keyPressed (const juce::KeyPress&) override;
    void focusGained (FocusChangeType) override { repaint(); }
    void focusLost (FocusChangeType) override { repaint(); }
    void lookAndFeelChanged() override
    {
        needsPicture = true;
        repaint();
    }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    void paintPicture();
    void drawWireBed (juce::Graphics&) const;
    void drawLugNumbers (juce::Graphics&) const;

    modal::HeadSide side;
    Scene scene;
    std::vector<std::unique_ptr<LugHandle>> lugs;
    RovingFocus lugFocus; ///< after the lugs, so that it ends first
    int visibleLugs = 0;
    juce::Rectangle<float> circle;
    std::unique_ptr<PlanShape> shape;
    const void* shapeOf = nullptr;
    Pose pose;
    std::vector<float> heights;
    juce::Image picture;
    bool needsPicture = false, isMoving = false;
    double strokePlace = 0.25, strokeAngle = 0.6;
};

} // namespace editor
