#include "Utf8.h"

#include <algorithm>

namespace files
{
namespace
{
struct Lead
{
    std::size_t length; ///< bytes of the sequence, 0 for a byte that cannot start one
    unsigned bits;      ///< of the code point, from this byte
    unsigned smallest;  ///< code point that needs this length
};

Lead leadOf (unsigned char byte)
{
    if (byte < 0x80)
        return { 1, byte, 0 };
    if ((byte & 0xe0) == 0xc0)
        return { 2, byte & 0x1fu, 0x80 };
    if ((byte & 0xf0) == 0xe0)
        return { 3, byte & 0x0fu, 0x800 };
    if ((byte & 0xf8) == 0xf0)
        return { 4, byte & 0x07u, 0x10000 };

    return { 0, 0, 0 };
}

bool continues (char c)
{
    return (static_cast<unsigned char> (c) & 0xc0) == 0x80;
}
} // namespace

std::size_t firstFaultInUtf8 (std::string_view text)
{
    for (std::size_t at = 0; at < text.size();)
    {
        const auto lead = leadOf (static_cast<unsigned char> (text[at]));

        if (lead.length == 0 || at + lead.length > text.size())
            return at;

        auto codePoint = lead.bits;

        for (std::size_t i = 1; i < lead.length; ++i)
        {
            if (! continues (text[at + i]))
                return at;

            codePoint = (codePoint << 6) | (static_cast<unsigned char> (text[at + i]) & 0x3fu);
        }

        if (codePoint < lead.smallest || codePoint > 0x10ffff || (codePoint >= 0xd800 && codePoint <= 0xdfff))
            return at;

        at += lead.length;
    }

    return std::string_view::npos;
}

void appendUtf8 (std::string& text, unsigned codePoint)
{
    const auto tail = [&] (unsigned shift) { text += static_cast<char> (0x80u | ((codePoint >> shift) & 0x3fu)); };

    if (codePoint < 0x80)
    {
        text += static_cast<char> (codePoint);
    }
    else if (codePoint < 0x800)
    {
        text += static_cast<char> (0xc0u | (codePoint >> 6));
        tail (0);
    }
    else if (codePoint < 0x10000)
    {
        text += static_cast<char> (0xe0u | (codePoint >> 12));
        tail (6);
        tail (0);
    }
    else
    {
        text += static_cast<char> (0xf0u | (codePoint >> 18));
        tail (12);
        tail (6);
        tail (0);
    }
}

std::size_t countCharacters (std::string_view text)
{
    return static_cast<std::size_t> (std::count_if (text.begin(), text.end(), [] (char c) { return ! continues (c); }));
}

} // namespace files
