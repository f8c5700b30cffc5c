#pragma once

#include "Modal/hardware/StickBody.h"

#include <array>

namespace engine
{

/** Kind of stroke. */
enum class StrokeKind
{
    tip,          ///< the stick's tip on the batter head
    rimshot,      ///< tip on the head and shaft on the hoop, almost at once
    crossStick,   ///< the stick lies across the drum and its shaft is knocked on the hoop
    buzz,         ///< the tip pressed into the head so that it bounces
    doubleStroke, ///< two tips of one motion
    sweep         ///< a brush's wires drawn over the head
};

/** One stroke. */
struct Stroke
{
    StrokeKind kind = StrokeKind::tip;
    double position = 0.25; ///< distance of the tip from the centre as a share of the radius, 0 to 0.98
    double angle = 0.6;     ///< rad, clockwise from lug 1 seen from above; the wires lie along 0 and π
    double speed = 3.0;     ///< m/s of the tip when it lands, 0.01 to 12; of a sweep along the head, 0.02 to 3
    /** s, rimshot: rim delay, hoop after head (negative: before), -1 to 1 ms. The default has no source: no player aims to 0.1
       ms, but a rimshot that meets the hoop first is thin (4 to 10 dB softer at -0.3 ms), so players keep a little to this side.
       See Source/Engine/README.md for what it was held against. */
    double rimLag = 0.2e-3;
    double pressForce = 2.5;     ///< N, buzz: the hand on the stick, 0.5 to 40
    double pressTime = 0.25;     ///< s, buzz: until the stick lifts, 0.02 to 2
    double secondDelay = 0.07;   ///< s, double stroke, 0.02 to 0.5
    double secondShare = 0.8;    ///< speed of the second stroke to the first, 0.1 to 1.2
    double sweepForce = 0.3;     ///< N, sweep: of the wires on the head, 0.02 to 3
    double sweepTime = 0.6;      ///< s, sweep: until the brush lifts, 0.05 to 30; a straight one ends before the rim
    bool sweepsStraight = false; ///< across the head through its centre; otherwise in a circle round the centre
};

/** One motion of a stick, which strokes are made of. A brush comes down with `speed`, loses it within `handTime`, stays for
   `holdTime` and goes with `awaySpeed`. */
struct Blow
{
    double delay = 0.0;  ///< s after the stroke, 0 to 10
    double radius = 0.0; ///< m, where the tip meets the head, 0 to 10; beyond the rim is the rim
    double angle = 0.0;  ///< rad
    double speed = 1.0;  ///< m/s, downwards, of the tip, or of a laid stick's shaft over the hoop, 1e-4 to 100
    bool isLaid = false; ///< the tip rests on the head and the stick turns about it
    bool meetsHoop = false;
    double hoopAngle = 0.0;      ///< rad, where the shaft crosses the hoop
    double hoopDistance = 0.13;  ///< m from the tip to there along the stick, 0.01 to 0.45
    double hoopLag = 0.0;        ///< s by which the hoop is met after the head if nothing slows the stick, -0.1 to 0.1
    double swingLength = 0.27;   ///< m from the tip to where the stick turns about as it comes down, 0.05 to 100
    double hand = 0.0;           ///< N at the tip that the hand presses with, downwards, until `holdTime`, 0 to 1000
    double holdTime = 0.0;       ///< s, 0 to 30
    double handTime = 0.0;       ///< s in which the hand comes, and in which it later goes over from pressing to lifting, 0 to 10
    double lift = 0.0;           ///< N at the tip, upwards, 0 to 1000
    double awaySpeed = 0.0;      ///< m/s, of a brush, 0.01 to 100
    double sweepSpeed = 0.0;     ///< m/s, of a brush along the head, 0 to 3
    bool sweepsStraight = false; ///< see Stroke
};

/** The blows of a stroke in order of time. */
struct Blows
{
    std::array<Blow, 2> blow;
    int count = 0;
};

/** Values out of range are brought into range, NaN to the lowest; realtime safe. `headRadius` in m. */
Blows blowsOf (const Stroke&, const modal::StickBody&, double headRadius) noexcept;

/** Where the wires of a brush are that lie `lateral` m from the middle of its fan, once it has swept so far, m; radius and angle
 * are set. */
Blow sweptTo (Blow, double distance, double lateral, double headRadius) noexcept;

/** A blow with its values brought into range. */
Blow broughtIntoRange (Blow) noexcept;

} // namespace engine
