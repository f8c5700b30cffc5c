#pragma once

#include "Iteration.h"

namespace fitting
{

/** ln of the probability of the second recordings of a setup (DrumFitSetup::turned, weighted), given the tuning that an iteration
    has found. Each line of the first recording that has a mode moves with it, from where it was heard, so the error of the model
    cancels; 0 without second recordings. */
double evidenceOfAdded (const DrumIteration&);

} // namespace fitting
