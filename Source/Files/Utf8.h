#pragma once

#include <cstddef>
#include <string_view>

namespace files
{

/** The number of code points of well-formed UTF-8, for aligning columns. */
std::size_t countCharacters (std::string_view);

} // namespace files
