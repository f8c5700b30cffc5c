#pragma once

#include <cstdint>
#include <string>
#include <vector>

/** A WAV file taken apart by the layout of its RIFF chunks, without the library that wrote it. */
struct WavContent
{
    int formatTag = 0; ///< 1 integer, 3 floating point, 0xFFFE extensible
    int channels = 0;
    int bits = 0;
    unsigned rate = 0;
    std::vector<double> samples; ///< full scale = 1
};

/** Throws std::runtime_error if the bytes are no complete WAV file. */
WavContent readWav (const std::string& bytes);
