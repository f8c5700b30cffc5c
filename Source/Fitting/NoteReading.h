#pragma once

#include "Head.h"
#include "Modal/pitch/Note.h"

#include <cmath>

namespace fitting
{

/** Hz: a note that a person reads off a head, by ear or from a tuner, to 10 cents (one standard deviation; common practice, no
 * source). */
inline Estimate readNote (double hertz)
{
    constexpr double reading = 10.0; // cents
    return { hertz, hertz * (std::exp2 (reading / 1200.0) - 1.0) };
}

/** Cents: one standard deviation of an estimated frequency. */
inline double errorInCents (const Estimate& hertz)
{
    return modal::centsBetween (hertz.value, hertz.value + hertz.error);
}

} // namespace fitting
