#pragma once

#include "Arguments.h"

#include "Score/Score.h"

namespace tool
{

/** The options that say what is played. */
const OptionGroup& strokeOptions();

/** What is to be played, and what of it was passed over. */
struct StrokesRead
{
    score::Score strokes;
    std::vector<std::string> remarks;
};

/** One stroke, a pattern or a MIDI file. Throws modal::InputError. */
StrokesRead readStrokes (const Arguments&);

} // namespace tool
