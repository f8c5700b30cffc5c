#pragma once

#include "Arguments.h"

#include "Files/DrumFile.h"
#include "Score/MidiNotes.h"

namespace tool
{

/** The options for what to play. */
const OptionGroup& strokeOptions();

/** The strokes to play: one stroke, a pattern or a MIDI file; if no option says which, the pattern of the drum's file if it has one.
    @param hasBrush  the drum is played with a brush, which alone can sweep
    @throws modal::InputError */
score::StrokesRead readStrokes (const Arguments&, const std::optional<files::PatternSpec>& ofDrum, bool hasBrush);

} // namespace tool
