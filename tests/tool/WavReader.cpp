#include "WavReader.h"

#include <cmath>
#include <cstring>
#include <stdexcept>

namespace
{
std::uint32_t littleEndian (const std::string& bytes, std::size_t at, int count)
{
    if (at + static_cast<std::size_t> (count) > bytes.size())
        throw std::runtime_error ("the file is cut short");

    std::uint32_t value = 0;

    for (int i = count - 1; i >= 0; --i)
        value = (value << 8) | static_cast<unsigned char> (bytes[at + static_cast<std::size_t> (i)]);

    return value;
}

double sampleAt (const std::string& bytes, std::size_t at, int bits)
{
    const auto raw = littleEndian (bytes, at, bits / 8);

    if (bits == 32)
    {
        float value;
        std::memcpy (&value, &raw, sizeof (value));
        return value;
    }

    const auto half = std::uint32_t{ 1 } << (bits - 1);
    return raw < half ? raw / static_cast<double> (half) : raw / static_cast<double> (half) - 2.0;
}
} // namespace

WavContent readWav (const std::string& bytes)
{
    if (bytes.substr (0, 4) != "RIFF" || bytes.substr (8, 4) != "WAVE" || littleEndian (bytes, 4, 4) + 8 != bytes.size())
        throw std::runtime_error ("not a whole RIFF WAVE file");

    WavContent wav;

    for (std::size_t at = 12; at + 8 <= bytes.size();)
    {
        const auto name = bytes.substr (at, 4);
        const auto size = littleEndian (bytes, at + 4, 4);
        const auto body = at + 8;

        if (name == "fmt ")
        {
            wav.formatTag = static_cast<int> (littleEndian (bytes, body, 2));
            wav.channels = static_cast<int> (littleEndian (bytes, body + 2, 2));
            wav.rate = littleEndian (bytes, body + 4, 4);
            wav.bits = static_cast<int> (littleEndian (bytes, body + 14, 2));
        }
        else if (name == "data")
        {
            for (std::size_t i = 0; i < size; i += static_cast<std::size_t> (wav.bits / 8))
                wav.samples.push_back (sampleAt (bytes, body + i, wav.bits));
        }

        at = body + size + size % 2;
    }

    return wav;
}
