#pragma once

#include "Score/MidiNotes.h"

#include <string>

namespace tool
{

/** Reads the notes of a Standard MIDI File (RP-001) as score::strokesOfNotes() does, on all channels and tracks together, at the times that its
    tempo map gives. Other events are ignored.

    @throws modal::InputError naming the file if it cannot be read, is larger than 16 MB, is no MIDI file or plays nothing
*/
score::StrokesRead readMidiFile (const std::string& path, bool hasBrush);

} // namespace tool
