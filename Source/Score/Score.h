#pragma once

#include "Engine/Stroke.h"

#include <string>
#include <vector>

/** Strokes in time, from patterns, MIDI or the user. */
namespace score
{

struct TimedStroke
{
    double time = 0.0; ///< s from the beginning
    engine::Stroke stroke;
};

/** In order of time. */
using Score = std::vector<TimedStroke>;

/** Time of the last stroke, s; 0 for an empty score. */
double lastStroke (const Score&) noexcept;

/** @throws modal::InputError if a stick would have to sweep. `allowed` says how to choose a brush */
void requireBrushForSweeps (const Score&, bool hasBrush, const std::string& allowed);

} // namespace score
