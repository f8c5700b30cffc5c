#pragma once

#include "NamedPrediction.h"

#include <string>
#include <vector>

namespace tool
{

/** Tunings side by side against note names as an SVG picture: one line per semitone, frequency upwards on a logarithmic scale.
   Each tuning has three lanes: batter head, drum, resonant head. The outer lanes show the tap note and, as marks whose area is
   the share of the heads' energy, what each mode moves; the middle lane shows the drum's modes. Shape and place tell the lanes
   apart without colour. */
std::string noteLadder (const std::vector<NamedPrediction>&);

} // namespace tool
