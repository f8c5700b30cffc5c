#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** The known word that was probably meant, or "": the first that begins with the whole word (from three letters on, or up to an
   underscore), else the one fewest edits away, small and capital letters being alike. */
std::string nearestWord (std::string_view word, const std::vector<std::string>& known);

/** "a, b or c". */
std::string listed (const std::vector<std::string>& words);

/** The words that would do in place of the one given, and the one that was probably meant: "a, b or c; perhaps b". */
std::string listedFor (std::string_view given, const std::vector<std::string>& words);

} // namespace files
