#pragma once

#include <string>

namespace modal
{

/** The text in UTF-8 with # for a sharp sign, b for a flat sign and - for a minus sign: so that "G♯3 −20" reads as "G#3 -20". */
std::string plainSigns (std::string text);

} // namespace modal
