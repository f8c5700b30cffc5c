#pragma once

#include "Fitting/Drum.h"
#include "Fitting/Lines.h"

namespace fitting
{

/** Two tensions from which a fit of the finished drum may begin. */
struct DrumStart
{
    double batter = 0.0, resonant = 0.0; ///< N/m
    double evidence = 0.0;               ///< see evidence()
};

/** The best few of a grid of both heads' tensions from slack to the films' yield, best first. */
std::vector<DrumStart> drumStarts (const DrumFitSetup&, const std::vector<Line>&);

} // namespace fitting
