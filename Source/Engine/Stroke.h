#pragma once

#include "Modal/hardware/Stick.h"

#include <array>

namespace engine
{

/** Kind of stroke. */
enum class StrokeKind
{
    tip,         ///< the stick's tip on the batter head
    rimshot,     ///< tip on the head and shaft on the hoop, almost at once
    crossStick,  ///< the stick lies across the drum and its shaft is knocked on the hoop
    buzz,        ///< the tip pressed into the head so that it bounces
    doubleStroke ///< two tips of one motion
};

/** One stroke. */
struct Stroke
{
    StrokeKind kind = StrokeKind::tip;
    double position = 0.25;    ///< distance of the tip from the centre as a share of the radius, 0 to 0.98
    double angle = 0.6;        ///< rad, from the direction of the wires
    double speed = 3.0;        ///< m/s of the tip when it lands, 0.01 to 12
    double rimLag = 0.3e-3;    ///< s, rimshot: rim delay, hoop after head (negative: before), -1 to 1 ms
    double pressForce = 6.0;   ///< N, buzz: the hand on the stick, 0.5 to 40
    double pressTime = 0.25;   ///< s, buzz: until the stick lifts, 0.02 to 2
    double secondDelay = 0.07; ///< s, double stroke, 0.02 to 0.5
    double secondShare = 0.8;  ///< speed of the second stroke to the first, 0.1 to 1.2
};

/** One impact of a mass. A stroke consists of one or two of them. */
struct Blow
{
    enum class Target
    {
        head,
        hoop
    };

    Target target = Target::head;
    double delay = 0.0;       ///< s after the stroke, 0 to 10
    double radius = 0.0;      ///< m, on the head, 0 to 10; clamped to the rim
    double angle = 0.0;       ///< rad
    double speed = 1.0;       ///< m/s, downwards, 1e-4 to 100
    double mass = 0.02;       ///< kg, 1e-4 to 100
    double stiffness = 1.0e6; ///< N/m^exponent, 1 to 1e12
    double exponent = 1.5;    ///< 1 to 4
    double loss = 0.0;        ///< s/m, 0 to 100
    double grip = 0.0;        ///< N s/m, damping of the stick by the hand, 0 to 1000
    double hand = 0.0;        ///< N, downwards, until `holdTime`, 0 to 1000
    double holdTime = 0.0;    ///< s, 0 to 10
    double handTime = 0.0;    ///< s, rise time of the hand's force and of the later change from pressing to lifting, 0 to 10
    double lift = 0.0;        ///< N, upwards, 0 to 1000
};

/** The blows of a stroke in order of time. */
struct Blows
{
    std::array<Blow, 2> blow;
    int count = 0;
};

/** Values out of range are clamped, not-a-number to the lowest. Realtime safe. `headRadius` in m. */
Blows blowsOf (const Stroke&, const modal::StickSpec&, double headRadius) noexcept;

/** The same for a blow. */
Blow broughtIntoRange (Blow) noexcept;

} // namespace engine
