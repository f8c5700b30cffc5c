#pragma once

#include <span>
#include <string_view>

namespace files
{

/** A file that the build put into the program. */
struct EmbeddedFile
{
    std::string_view name; ///< of the file, without folder and last extension
    std::string_view text; ///< its bytes
};

/** The files of Presets/ and of its folders, by name. */
std::span<const EmbeddedFile> embeddedDrums();
std::span<const EmbeddedFile> embeddedHeads();
std::span<const EmbeddedFile> embeddedLessons();
std::span<const EmbeddedFile> embeddedPatterns();
std::span<const EmbeddedFile> embeddedPlaces();
std::span<const EmbeddedFile> embeddedSticks();
std::span<const EmbeddedFile> embeddedWires();

} // namespace files
