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
    /** s after the last blow that are left out: the stick is still on the head, the room has not yet answered. */
    double settle = 0.06;
    double longest = 0.8; ///< s of ringing that are used
};

/** The damped sines that one tap left, ascending in frequency; those that do not stand out of the noise by four standard
    deviations, or that fade faster than 150/s or hardly at all, are left out.

    @param quiet  where the recording's noise is measured, s; see quietestMoment()
*/
std::vector<fitting::Partial> partialsOf (const Recording&, const Tap&, double quiet, const PartialSearch& = {});

} // namespace listening
