#pragma once

#include "StrokeOptions.h"

#include <string>

namespace tool
{

/** Reads a Standard MIDI File (RP-001): the note-ons whose note plays a stroke (score::strokeNotes()), on all channels and
   tracks together, at the times that its tempo map gives; a sweep lasts as long as its note is held. Other notes are skipped with a remark, other
   events silently.

    @throws modal::InputError naming the file if it cannot be read, is larger than 16 MB, is no MIDI file or plays nothing
*/
StrokesRead readMidiFile (const std::string& path, bool hasBrush);

} // namespace tool
