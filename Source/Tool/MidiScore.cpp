#include "MidiScore.h"

#include "Modal/InputError.h"
#include "Score/MidiNotes.h"

#include <juce_audio_basics/juce_audio_basics.h>

#include <algorithm>
#include <set>

namespace tool
{

namespace
{

constexpr juce::int64 largestFile = 16 * 1024 * 1024;
constexpr const char* allowedFiles = "a Standard MIDI File of at most 16 MB";

juce::MidiFile openMidiFile (const std::string& path)
{
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile (juce::String::fromUTF8 (path.c_str()));
    const auto refuse = [&] (const std::string& found)
    { return modal::InputError::fault ("--midi, \"" + path + "\",", found, allowedFiles); };

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

StrokesRead readMidiFile (const std::string& path, bool hasBrush)
{
    const auto midi = openMidiFile (path);
    score::Score strokes;
    std::set<int> unknownNotes;
    int notes = 0, unknown = 0;

    for (int t = 0; t < midi.getNumTracks(); ++t)
        for (const auto* event : *midi.getTrack (t))
        {
            const auto& message = event->message;
            engine::Stroke stroke;

            if (! message.isNoteOn())
                continue;

            ++notes;

            if (score::strokeForNote (message.getNoteNumber(), message.getVelocity(), stroke, hasBrush))
            {
                if (event->noteOffObject != nullptr)
                    stroke.sweepTime = event->noteOffObject->message.getTimeStamp() - message.getTimeStamp();
                strokes.push_back ({ message.getTimeStamp(), stroke });
            }
            else
            {
                ++unknown;
                unknownNotes.insert (message.getNoteNumber());
            }
        }

    if (strokes.empty())
        throw modal::InputError::fault (path, "has no note that plays a stroke",
                                        "notes 18, 19, 21 to 26, 37, 38 or 40, such as 38, a stroke off centre");

    std::stable_sort (strokes.begin(), strokes.end(),
                      [] (const score::TimedStroke& a, const score::TimedStroke& b) { return a.time < b.time; });
    if (unknown == 0)
        return { strokes, {} };

    std::string numbers;

    for (const int note : unknownNotes)
        numbers += (numbers.empty() ? "" : ", ") + std::to_string (note);

    return { strokes,
             { std::to_string (unknown) + (unknown == 1 ? " note of " : " notes of ") + std::to_string (notes) +
               (unknown == 1 ? " has no stroke (" : " have no stroke (") + numbers + ")" } };
}

} // namespace tool
