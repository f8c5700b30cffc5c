#pragma once

#include <filesystem>
#include <memory>

namespace juce
{
class AudioFormatWriter;
}

namespace tool
{

/** How samples are stored. */
enum class SampleFormat
{
    integer16,
    integer24,
    float32
};

/** Writes a one-channel WAV file block by block. Integer samples beyond ±1 are clipped. Throws OutputError. */
class WavFile
{
public:
    WavFile (const std::filesystem::path&, double sampleRate, SampleFormat);
    ~WavFile();
    WavFile (const WavFile&) = delete;
    WavFile& operator= (const WavFile&) = delete;

    void write (const float* samples, int count);

    /** Completes the header. Throws OutputError if any of it did not reach the disk. */
    void close();

private:
    std::filesystem::path path;
    std::unique_ptr<juce::AudioFormatWriter> writer;
};

} // namespace tool
