#pragma once

#include "Fitting/Drum.h"
#include "Fitting/Lines.h"

namespace fitting
{

/** Start values of a fit of the finished drum. */
struct DrumStart
{
    double batter = 0.0, resonant = 0.0; ///< N/m
    double evidence = 0.0;               ///< see evidence()
};

/** The best points of a grid of both tensions from slack to yield, best first. */
std::vector<DrumStart> drumStarts (const DrumFitSetup&, const std::vector<Line>&);

} // namespace fitting
