#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** The known word that needs the fewest edits to become `word`, or "" if none comes near. */
std::string nearestWord (std::string_view word, const std::vector<std::string>& known);

/** "a, b or c". */
std::string listed (const std::vector<std::string>& words);

} // namespace files
