#pragma once

#include "Modal/Solve.h"

namespace engine
{

/** How far up a drum's modes are worth following when it is played, Hz: as far as about so many modes of both heads reach,
   brought into 100 to 1200, within 1.5 to 5 kHz, and never so far that a large slack drum has more modes than an engine can
   carry.

    Counts modes by Weyl's law: a head has (ka)²/4 of them up to wave number k.
*/
double playedBand (const modal::DrumSpec&, const modal::Tensions&, double wantedModes = 400.0);

} // namespace engine
