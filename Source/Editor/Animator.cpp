#include "Animator.h"

#include "Strings.h"

#include "Modal/Units.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr int framesPerSecond = 60;
constexpr double swingsPerSecond = 0.8;

double now()
{
    return 0.001 * juce::Time::getMillisecondCounterHiRes();
}

} // namespace

int solvedModeOf (const modal::Prediction& prediction, const modal::DrumModes& modes, int mode)
{
    const auto& wanted = prediction.modes[static_cast<std::size_t> (mode)];
    int nearest = -1;
    double best = 1.0e-3 * wanted.frequency;
    for (int k = 0; k < modes.size(); ++k)
    {
        const auto& candidate = modes.modes[static_cast<std::size_t> (k)];
        const double away = std::abs (candidate.frequency - wanted.frequency);
        if (candidate.m == wanted.m && away < best)
        {
            best = away;
            nearest = k;
        }
    }
    return nearest;
}

void Animator::setScene (const Scene& newScene)
{
    const bool isOther = newScene.model != scene.model;
    scene = newScene;
    // A strike keeps moving on the new drum if both have the same number of basis functions; a mode does not.
    if (clock.isRunning() && ! canShow (*clock.strike()))
    {
        clock.stop();
        if (mode < 0)
            rest();
    }
    if (isOther && mode >= 0)
        showMode (-1);
}

/** Whether the views can draw a field: they use the basis of the current drum. */
bool Animator::canShow (const Motion& motion) const
{
    return scene.model != nullptr && motion.model->basisSize() == scene.model->basisSize();
}

void Animator::play (std::shared_ptr<const Motion> motion)
{
    if (motion == nullptr || ! canShow (*motion))
        return;
    clock.start (std::move (motion), now());
    if (mode < 0)
        startTimerHz (framesPerSecond);
}

void Animator::showMode (int newMode)
{
    if (newMode == mode)
        return;
    mode = newMode;
    const auto* modes = scene.modes();
    const int solved = mode >= 0 && modes != nullptr && scene.now != nullptr && mode < static_cast<int> (scene.now->modes.size())
                           ? solvedModeOf (*scene.now, *modes, mode)
                           : -1;
    if (solved < 0)
    {
        mode = -1;
        if (! clock.isRunning())
            rest();
        return;
    }
    const auto basis = static_cast<std::size_t> (modes->batter.rows());
    modeField.resize (2 * basis);
    for (std::size_t b = 0; b < basis; ++b)
    {
        modeField[b] = static_cast<float> (modes->batter (static_cast<Eigen::Index> (b), solved));
        modeField[basis + b] = static_cast<float> (modes->resonant (static_cast<Eigen::Index> (b), solved));
    }
    const PlanShape coarse (*modes, 32);
    std::vector<float> heights;
    coarse.displacement (modeField.data(), heights);
    float most = largest (heights);
    coarse.displacement (modeField.data() + basis, heights);
    most = std::max (most, largest (heights));
    modeScale = most > 0.0f ? 1.0f / most : 0.0f;
    startTimerHz (framesPerSecond);
}

void Animator::timerCallback()
{
    advanceTo (now());
}

void Animator::advanceTo (double nowSeconds)
{
    const bool isStriking = clock.isRunning() && clock.moveTo (nowSeconds);
    if (mode >= 0)
    {
        if (onPose)
            onPose (poseOfMode (nowSeconds),
                    strings::modeCaption (*scene.now, scene.now->modes[static_cast<std::size_t> (mode)]));
    }
    else if (isStriking)
    {
        if (onPose)
            onPose (poseOfStrike(), captionOfStrike());
    }
    else
        rest();
}

void Animator::rest()
{
    stopTimer();
    if (onPose)
        onPose ({}, strings::noStrikeYet);
}

Pose Animator::poseOfStrike() const
{
    const auto& strike = *clock.strike();
    const auto& frame = strike.frames[static_cast<std::size_t> (clock.frame())];
    Pose pose;
    pose.field = frame.field;
    pose.strand = frame.strand;
    const float radius = static_cast<float> (strike.model->setup().modes.radius);
    for (const float x : strike.strandX)
        pose.strandX.push_back (x / radius);
    const float most = std::max (strike.batterPeak, strike.resonantPeak);
    pose.scale = most > 0.0f ? 1.0f / most : 0.0f;
    pose.stick = frame.stick;
    pose.bend = frame.bend;
    pose.stickX = static_cast<float> (strike.stroke.position);
    pose.cutAngle = strike.stroke.angle;
    return pose;
}

Pose Animator::poseOfMode (double nowSeconds) const
{
    Pose pose;
    pose.isMode = true;
    const float swing = static_cast<float> (std::cos (modal::units::twoPi * swingsPerSecond * nowSeconds));
    pose.field.reserve (modeField.size());
    for (const float value : modeField)
        pose.field.push_back (swing * value);
    pose.scale = modeScale;
    return pose;
}

juce::String Animator::captionOfStrike() const
{
    return strings::strikeCaption (1000.0 * clock.drumTime(), clock.slowing());
}

} // namespace editor
