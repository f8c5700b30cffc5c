#pragma once

#include "Pattern.h"

#include <optional>

namespace plugin
{

/** The built-in patterns, in the order of their file names. */
const std::vector<Pattern>& patternBook();

/** The place of the pattern with these strokes, as its document has them; none if no built-in pattern has. */
std::optional<std::size_t> findPattern (const std::string& text, int stepsPerBeat);

std::vector<std::string> patternNames();

/** Pattern::formerName of each. */
std::vector<std::string> formerPatternNames();

} // namespace plugin
