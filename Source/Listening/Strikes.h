#pragma once

#include "Partials.h"

#include "Fitting/Lines.h"

#include <memory>

/** Strikes of a finished drum, struck and recorded anywhere. */
namespace listening
{

struct Strike
{
    std::shared_ptr<const Recording> recording;
    Tap tap;
    double quiet = 0.0; ///< s, see quietestMoment()
};

/** The notes that all strikes share: damped sines that explain all of them at once, ascending in frequency. The caller omits
    strikes that cannot be used (Tap::canBeStrike()).
    @throws InputError if the recordings differ in sample rate, other than among multiples of 300 Hz */
std::vector<fitting::Line> linesOf (const std::vector<Strike>&, const PartialSearch& = { .settle = 0.03 });

} // namespace listening
