#pragma once

#include "Arguments.h"

#include "Score/Score.h"

namespace tool
{

/** The options that say what is played. */
const OptionGroup& strokeOptions();

/** One stroke, a pattern or a MIDI file. Throws modal::InputError. */
score::Score readStrokes (const Arguments&);

} // namespace tool
