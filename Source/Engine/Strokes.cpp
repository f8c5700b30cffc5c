#include "Stroke.h"
#include "StrokeLimits.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** The hand's pull at the tip that takes a stick away after it has bounced, N. */
constexpr double liftForce = 4.0;

/** Force and time with which the hand rests the stick on the head during a cross-stick, N and s, and how long it takes to come and to
    leave: many periods of the head, so that neither makes it ring. Common practice, no source. */
constexpr double restingForce = 3.0, restingTime = 0.25, restingHandTime = 0.2, restingLift = 10.0;

/** The middle of the hoop's edge stands this far outside the bearing edge, m. Common practice, no source. */
constexpr double hoopOutside = 5.0e-3;

/** A rimshot is a stroke of the arm: the stick turns about a place this many times as far from the tip as its fulcrum, so that the
    hand comes down with it and pushes on. Common practice, no source. */
constexpr double armSwing = 2.0;

/** A brush's tap is stopped within this distance, m, and goes away with this share of its speed, in m/s at least. Common practice, no
    source. */
constexpr double tapDepth = 12.0e-3, tapAway = 0.5, leastAway = 0.3;

/** s in which a tap is stopped at the quickest and the slowest, and in which a sweep begins and ends. Common practice, no source. */
constexpr double quickestTurn = 4.0e-3, slowestTurn = 40.0e-3, sweepTurn = 40.0e-3;

/** No brush is pressed down further than this, m, no circle is smaller, and a straight sweep ends this share of the radius beyond the
    centre. Common practice, no source. */
constexpr double deepestPress = 60.0e-3, smallestCircle = 20.0e-3, straightEnd = 0.9;

/** As far out as strokes may land, share of the radius. */
constexpr double outermost = strokeLimits::position.high;

/** Not a number becomes the lowest. */
double inRange (double value, double low, double high) noexcept
{
    return value >= low ? std::min (value, high) : low;
}

double inRange (double value, const modal::Range& range) noexcept
{
    return inRange (value, range.low, range.high);
}

double finite (double angle) noexcept
{
    return std::isfinite (angle) ? angle : 0.0;
}

Blow tipBlow (const Stroke& stroke, const modal::StickBody& stick, double headRadius) noexcept
{
    Blow blow;
    blow.radius = inRange (stroke.position, strokeLimits::position) * headRadius;
    blow.angle = finite (stroke.angle);
    blow.speed = inRange (stroke.speed, strokeLimits::speed);
    blow.swingLength = stick.handPlace - stick.tipPlace;
    return blow;
}

/** Where the shaft of a stick crosses the hoop, `distance` from the tip as the drum has it: the hand's end stays outside. */
void meetHoop (Blow& blow, double angle, double distance, const modal::StickBody& stick) noexcept
{
    blow.meetsHoop = true;
    blow.hoopAngle = angle;
    blow.hoopDistance = std::min (distance, 0.9 * (stick.length - stick.tipPlace));
}

/** A tap. The wires land first with the speed of the hand, which comes to rest within the depth of half its speed times `handTime`. */
Blow brushBlow (const Stroke& stroke, const modal::StickBody& brush, double headRadius) noexcept
{
    Blow blow = tipBlow (stroke, brush, headRadius);
    blow.handTime = std::clamp (2.0 * tapDepth / blow.speed, quickestTurn, slowestTurn);
    blow.awaySpeed = std::max (leastAway, tapAway * blow.speed);
    return blow;
}

/** The wires are pressed down as deep as the force asks for, all but the lowest less by how the tips scatter. */
Blow sweepBlow (const Stroke& stroke, const modal::StickBody& brush, double headRadius) noexcept
{
    Blow blow = tipBlow (stroke, brush, headRadius);
    const double depth = inRange (stroke.sweepForce, strokeLimits::sweepForce) / brush.pressStiffness + 0.5 * brush.tipScatter;
    blow.handTime = sweepTurn;
    blow.speed = 2.0 * std::min (depth, deepestPress) / sweepTurn;
    blow.awaySpeed = leastAway;
    blow.sweepSpeed = inRange (stroke.speed, strokeLimits::sweepSpeed);
    blow.sweepsStraight = stroke.sweepsStraight;
    blow.holdTime = inRange (stroke.sweepTime, strokeLimits::sweepTime);
    if (stroke.sweepsStraight)
        blow.holdTime = std::min (blow.holdTime, (blow.radius + straightEnd * headRadius) / blow.sweepSpeed);
    else
        blow.radius = std::max (blow.radius, smallestCircle);
    return blow;
}

Blows brushBlowsOf (const Stroke& stroke, const modal::StickBody& brush, double headRadius) noexcept
{
    Blows blows;
    blows.count = 1;
    blows.blow[0] = stroke.kind == StrokeKind::sweep ? sweepBlow (stroke, brush, headRadius) : brushBlow (stroke, brush, headRadius);
    if (stroke.kind == StrokeKind::buzz)
        blows.blow[0].holdTime = inRange (stroke.pressTime, strokeLimits::pressTime);
    if (stroke.kind == StrokeKind::doubleStroke)
    {
        auto second = stroke;
        second.speed *= inRange (stroke.secondShare, strokeLimits::secondShare);
        blows.blow[1] = brushBlow (second, brush, headRadius);
        blows.blow[1].delay = inRange (stroke.secondDelay, strokeLimits::secondDelay);
        blows.count = 2;
    }
    return blows;
}

} // namespace

Blow sweptTo (Blow blow, double distance, double lateral, double headRadius) noexcept
{
    if (! blow.sweepsStraight && blow.sweepSpeed > 0.0)
    {
        blow.angle += distance / std::max (blow.radius, smallestCircle);
        blow.radius = std::clamp (blow.radius + lateral, 0.0, outermost * headRadius);
        return blow;
    }
    // The fan lies across the line through the centre, along which it moves.
    const double along = blow.radius - distance;
    blow.radius = std::min (std::hypot (along, lateral), outermost * headRadius);
    blow.angle += std::atan2 (lateral, along);
    return blow;
}

Blows blowsOf (const Stroke& stroke, const modal::StickBody& stick, double headRadius) noexcept
{
    if (stick.isBrush())
        return brushBlowsOf (stroke, stick, headRadius);
    Blows blows;
    const auto add = [&blows] (const Blow& blow) { blows.blow[static_cast<std::size_t> (blows.count++)] = blow; };
    Blow tip = tipBlow (stroke, stick, headRadius);

    switch (stroke.kind)
    {
    case StrokeKind::tip:
        add (tip);
        break;

    case StrokeKind::rimshot:
        meetHoop (tip, tip.angle, headRadius - tip.radius + hoopOutside, stick);
        tip.hoopLag = inRange (stroke.rimLag, strokeLimits::rimDelay);
        tip.swingLength *= armSwing;
        add (tip);
        break;

    case StrokeKind::crossStick:
        // Across the drum to the far side of the hoop, with the hand over the tip.
        meetHoop (tip, tip.angle + modal::units::pi, headRadius + tip.radius + hoopOutside, stick);
        tip.isLaid = true;
        tip.hand = restingForce;
        tip.holdTime = restingTime;
        tip.handTime = restingHandTime;
        tip.lift = restingLift;
        add (tip);
        break;

    case StrokeKind::buzz:
        tip.hand = inRange (stroke.pressForce, strokeLimits::pressForce);
        tip.holdTime = inRange (stroke.pressTime, strokeLimits::pressTime);
        tip.lift = liftForce;
        add (tip);
        break;

    case StrokeKind::doubleStroke:
    {
        add (tip);
        tip.delay = inRange (stroke.secondDelay, strokeLimits::secondDelay);
        tip.speed *= inRange (stroke.secondShare, strokeLimits::secondShare);
        add (tip);
        break;
    }
    case StrokeKind::sweep:
        break; // a stick does not sweep
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
    blow.hoopAngle = finite (blow.hoopAngle);
    bring (blow.hoopDistance, 0.01, 0.45);
    bring (blow.hoopLag, -0.1, 0.1);
    bring (blow.swingLength, 0.05, 100.0);
    bring (blow.hand, 0.0, 1.0e3);
    bring (blow.holdTime, 0.0, strokeLimits::sweepTime.high);
    bring (blow.handTime, 0.0, 10.0);
    bring (blow.lift, 0.0, 1.0e3);
    bring (blow.awaySpeed, 0.01, 100.0);
    bring (blow.sweepSpeed, 0.0, strokeLimits::sweepSpeed.high);
    return blow;
}

} // namespace engine
