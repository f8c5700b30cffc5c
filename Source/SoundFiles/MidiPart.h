#pragma once

#include "Score/MidiNotes.h"

#include <string>

namespace soundfiles
{

/** Reads the notes of a Standard MIDI File (RP-001) as score::strokesOfNotes() does, on all channels and tracks together, at the times that its
    tempo map gives. Other events are ignored.

    @param path      absolute or from the current folder
    @param field     for messages: what was asked for by this path
    @param hasBrush  the drum is played with one: only a brush sweeps
    @throws modal::InputError naming the file if it cannot be read, is larger than 16 MB, is no MIDI file or plays nothing */
score::StrokesRead readMidiPart (const std::string& path, const std::string& field, bool hasBrush);

} // namespace soundfiles
