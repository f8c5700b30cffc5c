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
    double place = engine::Stroke{}.position;     ///< share of the radius from the centre
    std::string microphone{};                     ///< the one that is heard; empty: the usual mix of all
    double modes = 400.0;                         ///< followed: see engine::playedBand()
    int strands = 8, points = 8, stringModes = 8; ///< see engine::WireDetail
};

/** One stroke on a drum in its first tuning, as strokeOf() cuts it: the mono sum of score::usualMix, Pa. Throws modal::InputError
   for a microphone that there is not. */
listening::Recording played (const files::DrumFile&, const engine::Stroke&, const Playing& = {});

/** The same drum with its heads as tight as those of the one recorded drum whose partials are known: its lowest mode then stands
    at 229 Hz (14 x 5 in), the recorded one's at 231 to 233 Hz when at rest. */
files::DrumFile tunedAsRecorded (files::DrumFile);

/** A stroke of this kind at each speed, on a drum in its first tuning. */
std::vector<listening::Recording> strokesOfKind (const files::DrumFile&, engine::StrokeKind, const Playing& = {});

/** Strokes of every class a quarter of the way to the edge, and rimshots. */
StrokeSet instrument (const files::DrumFile&, const Playing& = {});

} // namespace recordings
