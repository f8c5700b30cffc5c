#pragma once

#include "Modal/DrumModes.h"
#include "Fitting/Head.h"

#include <vector>

namespace fitting
{

/** How fast one mode was heard to fade, beside what the model says. */
struct HeardDecay
{
    double rate = 0.0;  ///< 1/s
    double error = 0.0; ///< 1/s
    modal::Decay predicted;

    /** The rate predicted with this ratio of losses in film, plies and edge, 1/s. */
    double rateWith (double lossRatio) const noexcept { return predicted.total() + (lossRatio - 1.0) * scaled(); }

    /** What goes with the ratio, 1/s. */
    double scaled() const noexcept { return predicted.film + predicted.ply + predicted.edge; }
};

/** Losses in film, plies and edge over those predicted, radiation taken as computed, outliers tamed (Huber). 1 with an error of 0
   if nothing was heard. */
Estimate lossRatioOf (const std::vector<HeardDecay>&);

} // namespace fitting
