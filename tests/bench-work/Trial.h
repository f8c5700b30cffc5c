#pragma once

#include "SyntheticDrum.h"

/** One random drum, heard and fitted by someone who knows its construction but neither its tuning nor its head's exact mass. */
namespace synthetic
{

struct Outcome
{
    bool isPossible = false;
    double noteCents = 0.0;    ///< found over true
    double tensionShare = 0.0; ///< found over true, minus 1
    bool isAxisNamed = false;  ///< the lug that is off, or the one opposite
    bool isLugNamed = false;   ///< the lug itself
    double suspectCents = 0.0; ///< found
};

/** The drum depends on `seed` alone: 12 to 15 in, 4 to 8 in deep, 6 to 10 lugs, 7 to 12 mil single ply, mass within ±3 %, a tap
   note that drums have, and one lug 20 cents up or down. @param hasPatchWalk  a second walk with a weight on the head */
Outcome tryDrum (unsigned seed, double signalToNoise, bool hasPatchWalk);

} // namespace synthetic
