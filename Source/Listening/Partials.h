#pragma once

#include "Taps.h"

#include "Fitting/Partial.h"

#include <vector>

namespace listening
{

/** Where to look for partials. */
struct PartialSearch
{
    double lowest = 60.0;    ///< Hz, at least 50
    double highest = 1200.0; ///< Hz, below 0.4 of the sample rate
    /** s after the last onset that are skipped, with the stick on the head and the room building up. */
    double settle = 0.06;
    double settleOfGlide = 0.012; ///< s, instead after a large stroke, whose glide can only be read from its start
    double longest = 0.8;         ///< s of ringing to use
};

/** The damped sines of one tap with their glides (see Glide.h), ascending in frequency. Omits sines less than four standard
   deviations above the noise, and those that decay faster than 150/s or hardly at all.

    @param quiet  where the recording's noise is measured, s; see quietestMoment()
*/
std::vector<fitting::Partial> partialsOf (const Recording&, const Tap&, double quiet, const PartialSearch& = {});

} // namespace listening
