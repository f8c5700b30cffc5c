#pragma once

#include "Partials.h"
#include "Subband.h"

/** What partials and strikes look for a mode in. */
namespace listening
{

/** Standard deviations by which a mode has to stand out of the noise. */
inline constexpr double fewestDeviations = 4.0;

/** @param decay  1/s; what fades faster than 150 is the blow, what fades slower than 0.3 a hum */
constexpr bool fadesLikeMode (double decay) noexcept
{
    return decay > 0.3 && decay < 150.0;
}

/** What a tap left in one band. */
struct TapBand
{
    Subband left;
    double noiseVariance = 0.0; ///< of a sample; 0 where the recording has no quiet moment
};

/** @param quiet   where the recording's noise is measured, s; see quietestMoment()
    @param centre  Hz, of the band */
TapBand bandOf (const SubbandFilter&, const Recording&, const Tap&, double quiet, const PartialSearch&, double centre);

} // namespace listening
