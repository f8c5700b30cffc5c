#include "MidiPart.h"

#include "Modal/InputError.h"

#include <juce_audio_basics/juce_audio_basics.h>

namespace soundfiles
{

namespace
{

constexpr juce::int64 largestFile = 16 * 1024 * 1024;
constexpr const char* allowedFiles = "a Standard MIDI File of at most 16 MB";

juce::MidiFile openMidiFile (const std::string& path, const std::string& field)
{
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile (juce::String::fromUTF8 (path.c_str()));
    const auto refuse = [&] (const std::string& found)
    { return modal::InputError::fault (field + ", \"" + path + "\",", found, allowedFiles); };

    if (! file.existsAsFile())
        throw refuse ("does not exist");

    if (file.getSize() > largestFile)
        throw refuse ("has " + modal::asText (static_cast<double> (file.getSize()) / 1.0e6, 3) + " MB");

    juce::FileInputStream stream (file);
    juce::MidiFile midi;

    if (! stream.openedOk() || ! midi.readFrom (stream))
        throw refuse ("is not a MIDI file");

    midi.convertTimestampTicksToSeconds();
    return midi;
}

} // namespace

score::StrokesRead readMidiPart (const std::string& path, const std::string& field, bool hasBrush)
{
    const auto midi = openMidiFile (path, field);
    std::vector<score::MidiNote> notes;

    for (int t = 0; t < midi.getNumTracks(); ++t)
        for (const auto* event : *midi.getTrack (t))
        {
            const auto& message = event->message;

            if (! message.isNoteOn())
                continue;

            score::MidiNote note{ message.getTimeStamp(), message.getNoteNumber(), message.getVelocity(), {} };

            if (event->noteOffObject != nullptr)
                note.held = event->noteOffObject->message.getTimeStamp() - note.time;
            notes.push_back (note);
        }

    return score::strokesOfNotes (notes, hasBrush, path);
}

} // namespace soundfiles
