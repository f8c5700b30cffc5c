#pragma once

#include "Fitting/Head.h"
#include "Modal/DrumModes.h"

#include <vector>

namespace fitting
{

/** Measured and predicted decay of one mode. */
struct HeardDecay
{
    double rate = 0.0;  ///< 1/s
    double error = 0.0; ///< 1/s
    modal::Decay predicted;

    /** The rate predicted with this ratio of losses in film, plies and edge, 1/s. */
    double rateWith (double lossRatio) const noexcept { return predicted.total() + (lossRatio - 1.0) * scaled(); }

    /** The part of the rate that scales with the ratio, 1/s. */
    double scaled() const noexcept { return predicted.film + predicted.bending + predicted.ply + predicted.edge; }
};

/** Losses in film, plies and edge over those predicted, with radiation as computed. Robust against outliers (Huber). 1 with an
   error of 0 if nothing was measured.

    @param modelError  standard deviation of each mode's decay about the one predicted, relative */
Estimate lossRatioOf (const std::vector<HeardDecay>&, double modelError);

} // namespace fitting
