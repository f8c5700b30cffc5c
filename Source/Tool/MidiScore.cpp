#include "MidiScore.h"

#include "Modal/InputError.h"

#include <juce_audio_basics/juce_audio_basics.h>

#include <algorithm>

namespace tool
{

namespace
{

constexpr juce::int64 largestFile = 16 * 1024 * 1024;
constexpr const char* allowedFiles = "a Standard MIDI File of at most 16 MB";

juce::MidiFile openMidiFile (const std::string& path)
{
    const auto file = juce::File::getCurrentWorkingDirectory().getChildFile (juce::String::fromUTF8 (path.c_str()));
    const auto refuse = [&] (const std::string& found) { return modal::InputError (path, found, allowedFiles); };

    if (! file.existsAsFile())
        throw refuse ("no such file");

    if (file.getSize() > largestFile)
        throw refuse (modal::asText (static_cast<double> (file.getSize()) / 1.0e6, 3) + " MB");

    juce::FileInputStream stream (file);
    juce::MidiFile midi;

    if (! stream.openedOk() || ! midi.readFrom (stream))
        throw refuse ("something else");

    midi.convertTimestampTicksToSeconds();
    return midi;
}

} // namespace

score::Score readMidiFile (const std::string& path)
{
    const auto midi = openMidiFile (path);
    score::Score strokes;

    for (int t = 0; t < midi.getNumTracks(); ++t)
        for (const auto* event : *midi.getTrack (t))
        {
            const auto& message = event->message;
            engine::Stroke stroke;

            if (message.isNoteOn() && engine::strokeForNote (message.getNoteNumber(), message.getVelocity(), stroke))
                strokes.push_back ({ message.getTimeStamp(), stroke });
        }

    if (strokes.empty())
        throw modal::InputError (path, "no note that plays a stroke", "notes 21 to 26, 37, 38 or 40, such as 38 for a stroke off centre");

    std::stable_sort (strokes.begin(), strokes.end(),
                      [] (const score::TimedStroke& a, const score::TimedStroke& b) { return a.time < b.time; });
    return strokes;
}

} // namespace tool
