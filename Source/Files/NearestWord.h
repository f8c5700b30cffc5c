#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** The known word that was probably meant: the first that goes on after an underscore, else the one fewest edits away, else "".
 */
std::string nearestWord (std::string_view word, const std::vector<std::string>& known);

/** "a, b or c". */
std::string listed (const std::vector<std::string>& words);

} // namespace files
