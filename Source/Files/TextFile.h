#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace files
{

/** The most that a drum file may hold; a large one has a few kilobytes. */
inline constexpr std::uintmax_t largestTextFile = 1024 * 1024;

/** The whole of a small text file. Throws modal::InputError if it is missing, a directory, unreadable, empty or too large. */
std::string loadText (const std::filesystem::path&);

} // namespace files
