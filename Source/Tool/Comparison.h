#pragma once

#include "Reports/NamedPrediction.h"

#include <string>
#include <vector>

namespace tool
{

/** Tunings side by side; changes count from the first. */
std::string comparisonText (const std::vector<reports::NamedPrediction>&);

} // namespace tool
