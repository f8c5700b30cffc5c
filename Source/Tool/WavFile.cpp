#include "WavFile.h"

#include "OutputFile.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <algorithm>
#include <cmath>

namespace tool
{
namespace
{
int bitsOf (SampleFormat format)
{
    return format == SampleFormat::integer16 ? 16 : format == SampleFormat::integer24 ? 24 : 32;
}

[[noreturn]] void fail (const std::filesystem::path& path)
{
    throw OutputError ("cannot write " + path.string() + ": the disk may be full, or the file too large for a WAV");
}
} // namespace

WavFile::WavFile (const std::filesystem::path& target, double sampleRate, int channelCount, SampleFormat format)
    : path (target), channels (channelCount)
{
    auto stream =
        std::make_unique<juce::FileOutputStream> (juce::File (juce::String (std::filesystem::absolute (path).string())));

    if (stream->failedToOpen())
        fail (path);

    juce::WavAudioFormat wav;
    writer.reset (wav.createWriterFor (stream.get(), sampleRate, static_cast<unsigned> (channels), bitsOf (format), {}, 0));

    if (writer == nullptr)
        fail (path);

    stream.release(); // now the writer's
}

WavFile::~WavFile() = default;

void WavFile::write (const float* const* samples, int count)
{
    for (int c = 0; c < channels; ++c)
        if (! std::all_of (samples[c], samples[c] + count, [] (float sample) { return std::isfinite (sample); }))
            throw OutputError ("the sound has a sample that is not a finite number; nothing was written");

    if (! writer->writeFromFloatArrays (samples, channels, count))
        fail (path);
}

void WavFile::close()
{
    const auto wasFlushed = writer->flush();
    writer.reset();

    if (! wasFlushed)
        fail (path);
}

void writeMono (const std::string& target, const std::vector<float>& samples, double rate)
{
    OutputFile output (target);
    WavFile wav (output.temporaryPath(), rate, 1, SampleFormat::integer24);
    const float* channel = samples.data();
    wav.write (&channel, static_cast<int> (samples.size()));
    wav.close();
    output.commit();
}

} // namespace tool
