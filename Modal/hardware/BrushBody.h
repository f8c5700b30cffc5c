#pragma once

#include "StickBody.h"

namespace modal
{

/** Groups of neighbouring wires that stand for all of a brush's. */
inline constexpr int brushGroups = 6;

/** A brush: a fan of thin wires that are clamped in a handle, gathered into groups of neighbours.

    The hand alone moves the handle: hand and handle weigh far more than the wires. The body's modes are those of a cantilever, as seen
    from the handle. `ofTranslation` says how much the handle's speed across the wires moves a mode.

    The wires of a group are taken to land within 2 ms of one another, a period of 500 Hz. Below it they act as one wire that is n times as
    heavy. Above it their forces come at random and add up to √n times one wire's, so these modes have the mass of √n wires.

    @param stick  with brushWires; @param highest  Hz, of the last mode that is kept
    @throws InputError for a stick out of range */
StickBody solveBrush (const StickSpec& stick, double highest = StickBody::highestBending);

} // namespace modal
