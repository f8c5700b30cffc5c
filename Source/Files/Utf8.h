#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace files
{

/** The offset of the first byte that is not well-formed UTF-8 (no overlong forms, no surrogates), or npos. */
std::size_t firstFaultInUtf8 (std::string_view);

/** Appends a code point, at most 0x10FFFF. */
void appendUtf8 (std::string& text, unsigned codePoint);

/** The number of code points of well-formed UTF-8, for aligning columns. */
std::size_t countCharacters (std::string_view);

} // namespace files
