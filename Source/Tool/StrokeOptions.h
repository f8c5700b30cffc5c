#pragma once

#include "Arguments.h"

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

/** One stroke, a pattern or a MIDI file. Throws modal::InputError. */
StrokesRead readStrokes (const Arguments&);

} // namespace tool
