#pragma once

#include "DrumModes.h"
#include "FitHead.h"

#include <vector>

namespace modal
{

/** How fast one mode was heard to fade, beside what the model says. */
struct HeardDecay
{
    double rate = 0.0;  ///< 1/s
    double error = 0.0; ///< 1/s
    Decay predicted;
};

/** Losses in film, plies and edge over those predicted, radiation taken as computed. Error 0 if nothing was heard. */
Estimate lossRatioOf (const std::vector<HeardDecay>&);

} // namespace modal
