#pragma once

#include "StrandGeometry.h"

#include <Eigen/Core>

#include <vector>

namespace engine
{

/** A normal mode of the wires off the head. */
struct WireMode
{
    double frequency = 0.0; ///< Hz
    double decay = 0.0;     ///< 1/s
    Eigen::VectorXd shape;  ///< 1/√kg at the contacts with x, y > 0: point × pairs + pair
};

/** Whether a motion changes its sign from one side of the drum to the other. */
struct WireParity
{
    bool isOddInX = false; ///< along the strands: the end plates move in opposite directions
    bool isOddInY = false; ///< across them: the plates tilt
};

/** The normal modes of the strands with the end plates they are soldered to and the straps these hang from, softest first.

    A strand moves as it does between plates at rest, in StrandGeometry's modes, and is carried by its ends in a straight line,
   which is its static shape (component modes as Craig and Bampton's, AIAA J. 6 (1968) 1313; from memory). A plate is rigid:
   strands pull at one long side, straps at the other, so that it rises, pitches and tilts. Straps are taut and light: tension
   over length is their stiffness, of which a share is lost. What this damping couples modes by is left out. */
std::vector<WireMode> solveWireModes (const StrandGeometry&, const modal::WireSpec&, WireParity);

} // namespace engine
