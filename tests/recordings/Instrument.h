#pragma once

#include "StrokeSet.h"

#include "Engine/Stroke.h"
#include "Files/DrumFile.h"

#include <string>

namespace recordings
{

/** How the instrument is played and how finely it is followed. */
struct Playing
{
    std::vector<double> speeds{ 2.0, 3.0, 4.0 };  ///< m/s, a stroke each
    double modes = 400.0;                         ///< followed: see engine::playedBand()
    int strands = 8, points = 8, stringModes = 8; ///< see engine::WireDetail
};

/** One stroke on a drum in its first tuning, as strokeOf() cuts it: the mono sum of score::usualMix, Pa. */
listening::Recording played (const files::DrumFile&, const engine::Stroke&, const Playing& = {});

/** Strokes of every class a quarter of the way to the edge, and rimshots. */
StrokeSet instrument (const files::DrumFile&, const Playing& = {});

} // namespace recordings
