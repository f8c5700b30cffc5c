#pragma once

#include "Partials.h"

#include "Fitting/Lines.h"

#include <memory>

/** Strikes of a finished drum, wherever it was struck and heard. */
namespace listening
{

struct Strike
{
    std::shared_ptr<const Recording> recording;
    Tap tap;
    double quiet = 0.0; ///< s, see quietestMoment()
};

/** The drum's notes, which all strikes have in common: the damped sines that explain all of them at once, ascending in frequency.
    A strike that cannot be used (Tap::canBeStrike()) is the caller's to leave out.
    @throws InputError if the recordings differ in sample rate, other than among multiples of 300 Hz */
std::vector<fitting::Line> linesOf (const std::vector<Strike>&, const PartialSearch& = { .settle = 0.03 });

} // namespace listening
