#pragma once

#include "StickBody.h"

namespace modal
{

/** A brush: a fan of thin wires that are clamped in a handle, gathered into a few groups of neighbours.

    Hand and handle weigh fifty times what the wires do and are moved by the hand alone; the body's modes are those of a cantilever, as seen
    from the handle. `ofTranslation` is what the handle's speed across the wires is worth to a mode.

    The wires of a group land within some milliseconds of one another. Below `landedTogether` they act as one, n times as heavy as
    a wire. Above it their forces come at random and add up to √n times one wire's, so modes up there have the mass of √n wires.

    @param stick  with brushWires; @param highest  Hz, of the last mode that is kept
    @throws InputError for a stick out of range */
StickBody solveBrush (const StickSpec& stick, double highest = StickBody::highestBending);

/** Frequencies of the first modes of one of its wires, clamped in the handle, Hz. */
std::array<double, 3> brushWireFrequencies (const StickSpec& stick);

} // namespace modal
