#pragma once

#include "HeadShape.h"
#include "MotionClock.h"
#include "Pose.h"
#include "Scene.h"

#include <juce_events/juce_events.h>

#include <functional>

namespace editor
{

/** Moves the heads on the screen: the last strike slowed, or a mode that is looked at. Its clock stands still when nothing moves.
 */
class Animator : private juce::Timer
{
public:
    void setScene (const Scene&);

    /** Shows a strike from its beginning. */
    void play (std::shared_ptr<const Motion>);

    /** Lets a mode of Scene::now swing; -1 ends it. */
    void showMode (int mode);

    /** The stroke whose motion is shown; nullptr if none is. */
    const engine::Stroke* stroke() const noexcept { return clock.strike() != nullptr ? &clock.strike()->stroke : nullptr; }

    bool isMoving() const noexcept { return isTimerRunning(); }

    /** A new pose, and a caption that says what it is. */
    std::function<void (const Pose&, const juce::String& caption)> onPose;

    /** As if the clock had reached a moment, s of juce's high resolution counter; for tests and measurements. */
    void advanceTo (double nowSeconds);

private:
    void timerCallback() override;
    void rest();
    bool canShow (const Motion&) const;
    Pose poseOfStrike() const;
    Pose poseOfMode (double nowSeconds) const;
    juce::String captionOfStrike() const;

    Scene scene;
    MotionClock clock;
    int mode = -1;
    std::vector<float> modeField; ///< of the mode at the end of its swing
    float modeScale = 0.0f;
};

/** The mode of a solved drum that a line of its prediction stands for, -1 if there is none. */
int solvedModeOf (const modal::Prediction&, const modal::DrumModes&, int mode);

} // namespace editor
