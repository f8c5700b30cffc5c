#pragma once

#include "Partials.h"
#include "Subband.h"

/** One band of a tap, in which partials and strikes are searched for modes. */
namespace listening
{

/** Standard deviations of a mode above the noise at least. */
inline constexpr double fewestDeviations = 4.0;

/** @param decay  1/s; faster than 150 is the stroke itself, slower than 0.3 a hum */
constexpr bool fadesLikeMode (double decay) noexcept
{
    return decay > 0.3 && decay < 150.0;
}

/** A tap in one band. */
struct TapBand
{
    Subband left;
    double noiseVariance = 0.0; ///< per sample; 0 if the recording has no quiet moment
};

/** @param quiet   where the recording's noise is measured, s; see quietestMoment()
    @param centre  Hz, of the band */
TapBand bandOf (const SubbandFilter&, const Recording&, const Tap&, double quiet, const PartialSearch&, double centre);

} // namespace listening
