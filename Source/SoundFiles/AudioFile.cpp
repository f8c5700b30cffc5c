#include "AudioFile.h"

#include "Modal/InputError.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <filesystem>

namespace soundfiles
{

listening::Recording loadRecording (const std::string& path, const std::string& field)
{
    constexpr double longest = 600.0; // s
    constexpr auto soundFile = "a WAV, AIFF, FLAC or MP3 file; convert others first: ffmpeg -i strike.m4a strike.wav";
    const juce::File file (juce::String (std::filesystem::absolute (path).string()));

    const auto refuse = [&] (const char* fault, const char* needed)
    { return modal::InputError::fault (field + ", \"" + path + "\",", fault, needed); };

    if (file.isDirectory())
        throw refuse ("is a folder", soundFile);

    if (! file.existsAsFile())
        throw refuse ("does not exist", soundFile);

    juce::AudioFormatManager formats;
    formats.registerBasicFormats();
    const std::unique_ptr<juce::AudioFormatReader> reader (formats.createReaderFor (file));

    if (reader == nullptr || reader->sampleRate <= 0.0)
        throw refuse ("is not a sound file", soundFile);

    if (reader->lengthInSamples <= 0)
        throw refuse ("holds no sound", "a recording");

    if (static_cast<double> (reader->lengthInSamples) > longest * reader->sampleRate)
        throw refuse ("is longer than ten minutes", "a recording of at most ten minutes");

    const auto frames = static_cast<int> (reader->lengthInSamples);
    const auto channels = static_cast<int> (reader->numChannels);
    juce::AudioBuffer<float> buffer (channels, frames);

    if (! reader->read (&buffer, 0, frames, 0, true, true))
        throw refuse ("is cut short", "a file that can be read to its end");

    // Not the channels' sum, in which two microphones at different distances cancel partials.
    int loudest = 0;

    for (int c = 1; c < channels; ++c)
        if (buffer.getRMSLevel (c, 0, frames) > buffer.getRMSLevel (loudest, 0, frames))
            loudest = c;

    const auto* samples = buffer.getReadPointer (loudest);
    listening::Recording recording{ reader->sampleRate, { samples, samples + frames } };
    listening::check (recording);
    return recording;
}

} // namespace soundfiles
