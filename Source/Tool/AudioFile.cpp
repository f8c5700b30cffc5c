#include "AudioFile.h"

#include "Modal/InputError.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <filesystem>

namespace tool
{

listening::Recording loadRecording (const std::string& path, const std::string& field)
{
    constexpr double longest = 600.0; // s
    const juce::File file (juce::String (std::filesystem::absolute (path).string()));

    if (! file.existsAsFile())
        throw modal::InputError (field, '"' + path + '"', "a WAV, AIFF or FLAC file that exists");

    juce::AudioFormatManager formats;
    formats.registerBasicFormats();
    const std::unique_ptr<juce::AudioFormatReader> reader (formats.createReaderFor (file));

    if (reader == nullptr || reader->lengthInSamples <= 0 || reader->sampleRate <= 0.0)
        throw modal::InputError (field, '"' + path + '"', "a WAV, AIFF or FLAC file");

    if (static_cast<double> (reader->lengthInSamples) > longest * reader->sampleRate)
        throw modal::InputError (field, '"' + path + '"', "a recording of at most ten minutes");

    const auto frames = static_cast<int> (reader->lengthInSamples);
    const auto channels = static_cast<int> (reader->numChannels);
    juce::AudioBuffer<float> buffer (channels, frames);

    if (! reader->read (&buffer, 0, frames, 0, true, true))
        throw modal::InputError (field, '"' + path + '"', "a file that can be read to its end");

    listening::Recording recording{ reader->sampleRate, std::vector<double> (static_cast<std::size_t> (frames), 0.0) };

    for (int c = 0; c < channels; ++c)
    {
        const auto* samples = buffer.getReadPointer (c);

        for (int i = 0; i < frames; ++i)
            recording.samples[static_cast<std::size_t> (i)] += static_cast<double> (samples[i]) / channels;
    }

    listening::check (recording);
    return recording;
}

} // namespace tool
