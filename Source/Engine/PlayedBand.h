#pragma once

#include "Modal/Solve.h"

namespace engine
{

/** Upper frequency for the modes of a played drum, Hz, so that both heads together have about `wantedModes` modes (clamped to 100
   to 1200). Between 1.5 and 5 kHz, and lower if a large slack drum would have more modes than the engine allows.

    By Weyl's law a head has (ka)²/4 modes up to wave number k.
*/
double playedBand (const modal::DrumSpec&, const modal::Tensions&, double wantedModes = 400.0);

} // namespace engine
