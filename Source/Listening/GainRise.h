#pragma once

#include "Taps.h"

namespace listening
{

/** How a recorder's automatic gain rises again after a blow has lowered it: by exp (rate·t). */
struct GainRise
{
    double rate = 0.0;  ///< 1/s; 0: steady
    double error = 0.0; ///< 1/s, one standard deviation

    bool isNone() const noexcept { return rate == 0.0; }
};

/** From the noise above 3.5 kHz behind a tap's ring. Gain that a blow has lowered makes it fainter than it was before the blow,
   and then it rises with the gain. None if the noise does not show that, as where it is below the ring or the recording starts
    with the blow: then decays may be too slow by as much as the gain rises, and nothing tells. */
GainRise gainRiseOf (const Recording&, const Tap&);

/** The recording as it would be if the gain had stayed what it was at the tap's last blow; until the tap's end. */
Recording withSteadyGain (Recording, const Tap&, const GainRise&);

} // namespace listening
