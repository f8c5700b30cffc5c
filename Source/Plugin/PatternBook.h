#pragma once

#include "Pattern.h"

namespace plugin
{

/** The patterns that come with the plugin, in the order of their files' names. */
const std::vector<Pattern>& patternBook();

std::vector<std::string> patternNames();

} // namespace plugin
