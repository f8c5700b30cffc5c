#pragma once

#include "Arguments.h"

#include "Files/DrumFile.h"
#include "Score/Score.h"

namespace tool
{

/** The options for what to play. */
const OptionGroup& strokeOptions();

/** The strokes to play, and remarks about notes that were left out. */
struct StrokesRead
{
    score::Score strokes;
    std::vector<std::string> remarks;
};

/** `hasBrush` says that the drum is played with one: only a brush sweeps. One stroke, a pattern or a MIDI file; if no option says which, the pattern of the drum's file if it has one. Throws
   modal::InputError. */
StrokesRead readStrokes (const Arguments&, const std::optional<files::PatternSpec>& ofDrum, bool hasBrush);

} // namespace tool
