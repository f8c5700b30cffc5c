#pragma once

#include "Files/EmbeddedFiles.h"

namespace files
{

/** The built-in typeface as TrueType files: bold, regular. */
std::span<const EmbeddedFile> fonts();

inline std::string_view fontData (bool isBold)
{
    return fonts()[isBold ? 0 : 1].text;
}

} // namespace files
