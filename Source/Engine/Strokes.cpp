#include "Stroke.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Force of the wrist that lifts the stick after a bounce, N. */
constexpr double liftForce = 4.0;

/** Force of the hand on a resting stick in a cross-stick, N, its duration, and its rise and fall time, s: many periods of the
   head, so that the hand does not excite it. Common practice, no source. */
constexpr double restingForce = 3.0, restingTime = 0.25, restingHandTime = 0.2;

/** Damping of a stick by a hand resting on it, N s/m. Common practice, no source: enough that it does not bounce.
 */
constexpr double restingGrip = 6.0;

/** Not a number becomes the lowest. */
double inRange (double value, double low, double high) noexcept
{
    return value >= low ? std::min (value, high) : low;
}

double finite (double angle) noexcept
{
    return std::isfinite (angle) ? angle : 0.0;
}

Blow tipBlow (const Stroke& stroke, const modal::StickSpec& stick, double headRadius) noexcept
{
    Blow blow;
    blow.radius = inRange (stroke.position, 0.0, 0.98) * headRadius;
    blow.angle = finite (stroke.angle);
    blow.speed = inRange (stroke.speed, 0.01, 12.0);
    blow.mass = stick.mass;
    blow.stiffness = stick.stiffness;
    blow.exponent = stick.exponent;
    blow.loss = stick.loss;
    blow.holdTime = 0.0;
    blow.lift = 0.0;
    return blow;
}

Blow shaftBlow (const Stroke& stroke, const modal::StickSpec& stick) noexcept
{
    Blow blow;
    blow.target = Blow::Target::hoop;
    blow.angle = finite (stroke.angle);
    blow.speed = inRange (stroke.speed, 0.01, 12.0);
    blow.mass = stick.shaftMass;
    blow.stiffness = stick.shaftStiffness;
    blow.exponent = 1.5;
    blow.loss = stick.loss;
    return blow;
}

} // namespace

Blows blowsOf (const Stroke& stroke, const modal::StickSpec& stick, double headRadius) noexcept
{
    Blows blows;
    const auto add = [&blows] (const Blow& blow) { blows.blow[static_cast<std::size_t> (blows.count++)] = blow; };
    Blow tip = tipBlow (stroke, stick, headRadius);

    switch (stroke.kind)
    {
    case StrokeKind::tip:
        add (tip);
        break;

    case StrokeKind::rimshot:
    {
        Blow shaft = shaftBlow (stroke, stick);
        const double lag = inRange (stroke.rimLag, -1.0e-3, 1.0e-3);
        tip.delay = std::max (-lag, 0.0);
        shaft.delay = std::max (lag, 0.0);
        add (lag < 0.0 ? shaft : tip);
        add (lag < 0.0 ? tip : shaft);
        break;
    }

    case StrokeKind::crossStick:
    {
        // The tip rests on the head under the hand; the shaft strikes the hoop.
        tip.speed = 0.05 * tip.speed;
        tip.hand = restingForce;
        tip.holdTime = restingTime;
        tip.handTime = restingHandTime;
        tip.grip = restingGrip;
        tip.lift = liftForce;
        add (tip);
        add (shaftBlow (stroke, stick));
        break;
    }

    case StrokeKind::buzz:
        tip.hand = inRange (stroke.pressForce, 0.5, 40.0);
        tip.holdTime = inRange (stroke.pressTime, 0.02, 2.0);
        tip.lift = liftForce;
        add (tip);
        break;

    case StrokeKind::doubleStroke:
    {
        add (tip);
        tip.delay = inRange (stroke.secondDelay, 0.02, 0.5);
        tip.speed *= inRange (stroke.secondShare, 0.1, 1.2);
        add (tip);
        break;
    }
    }
    return blows;
}

Blow broughtIntoRange (Blow blow) noexcept
{
    const auto bring = [] (double& value, double low, double high) { value = inRange (value, low, high); };
    bring (blow.delay, 0.0, 10.0);
    bring (blow.radius, 0.0, 10.0);
    blow.angle = finite (blow.angle);
    bring (blow.speed, 1.0e-4, 100.0);
    bring (blow.mass, 1.0e-4, 100.0);
    bring (blow.stiffness, 1.0, 1.0e12);
    bring (blow.exponent, 1.0, 4.0);
    bring (blow.loss, 0.0, 100.0);
    bring (blow.grip, 0.0, 1.0e3);
    bring (blow.hand, 0.0, 1.0e3);
    bring (blow.holdTime, 0.0, 10.0);
    bring (blow.handTime, 0.0, 10.0);
    bring (blow.lift, 0.0, 1.0e3);
    return blow;
}

} // namespace engine
