#pragma once

#include "Arguments.h"

#include "Reports/NamedPrediction.h"

#include <vector>

namespace tool
{

inline const Option pictureOption{ "picture", "FILE.svg", "tap notes and modes against note names; or a .pdf or .png" };

/** Writes the picture that `--picture` asks for, if it is given.

    It shows tunings side by side against note names: one line per semitone, frequency upwards on a logarithmic scale. Each tuning has
    three lanes: batter head, drum, resonant head. The outer lanes show the tap note and, as marks whose area is the head's share of
    the energy, each mode; the middle lane shows the drum's modes. Shape and place tell the lanes apart without colour. Throws
    modal::InputError for a file of another ending. */
void writeNoteLadder (const Arguments&, const std::vector<reports::NamedPrediction>&);

} // namespace tool
