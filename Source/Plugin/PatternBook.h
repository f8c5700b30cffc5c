#pragma once

#include "Pattern.h"

namespace plugin
{

/** The built-in patterns, in the order of their file names. */
const std::vector<Pattern>& patternBook();

std::vector<std::string> patternNames();

} // namespace plugin
