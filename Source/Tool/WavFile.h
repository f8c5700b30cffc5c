#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

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

/** Writes a WAV file block by block. Integer samples beyond ±1 are clipped. Throws OutputError, also for a sample that is
   not finite. */
class WavFile
{
public:
    WavFile (const std::filesystem::path&, double sampleRate, int channels, SampleFormat);
    ~WavFile();
    WavFile (const WavFile&) = delete;
    WavFile& operator= (const WavFile&) = delete;

    /** `count` samples of each channel. */
    void write (const float* const* channels, int count);

    /** Completes the header. Throws OutputError if any of it did not reach the disk. */
    void close();

private:
    std::filesystem::path path;
    int channels;
    std::unique_ptr<juce::AudioFormatWriter> writer;
};

/** Writes one channel to a WAV file of 24 bits, or to standard output for "-". @param rate  Hz. Throws OutputError. */
void writeMono (const std::string& target, const std::vector<float>& samples, double rate);

} // namespace tool
