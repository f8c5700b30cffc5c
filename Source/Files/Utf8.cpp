#include "Utf8.h"

#include <algorithm>

namespace files
{

std::size_t countCharacters (std::string_view text)
{
    const auto startsCharacter = [] (char c) { return (static_cast<unsigned char> (c) & 0xc0) != 0x80; };
    return static_cast<std::size_t> (std::count_if (text.begin(), text.end(), startsCharacter));
}

} // namespace files
