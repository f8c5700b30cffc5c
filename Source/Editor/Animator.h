#pragma once

#include "HeadShape.h"
#include "MotionClock.h"
#include "Pose.h"
#include "Scene.h"

#include <juce_events/juce_events.h>

#include <functional>

namespace editor
{

/** Animates the heads: the last strike in slow motion, or a chosen mode. The timer runs only while something moves. */
class Animator : private juce::Timer
{
public:
    void setScene (const Scene&);

    /** Shows a strike from its beginning. */
    void play (std::shared_ptr<const Motion>);

    /** Animates a mode of Scene::now; -1 stops. */
    void showMode (int mode);

    /** The stroke whose motion is shown; nullptr if none is. */
    const engine::Stroke* stroke() const noexcept { return clock.strike() != nullptr ? &clock.strike()->stroke : nullptr; }

    bool isMoving() const noexcept { return isTimerRunning(); }

    /** Called with each new pose and its caption. */
    std::function<void (const Pose&, const juce::String& caption)> onPose;

    /** Shows a moment, s of JUCE's high resolution counter; for tests and benchmarks. */
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
    std::vector<float> modeField; ///< of the mode at its largest displacement
    float modeScale = 0.0f;
};

/** Index of the solved drum's mode that belongs to a mode of the prediction; -1 if there is none. */
int solvedModeOf (const modal::Prediction&, const modal::DrumModes&, int mode);

} // namespace editor
