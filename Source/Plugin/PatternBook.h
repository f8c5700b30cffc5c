#pragma once

#include "Pattern.h"

namespace plugin
{

/** The built-in patterns, in the order of their file names. */
const std::vector<Pattern>& patternBook();

std::vector<std::string> patternNames();

/** Pattern::formerName of each. */
std::vector<std::string> formerPatternNames();

} // namespace plugin
