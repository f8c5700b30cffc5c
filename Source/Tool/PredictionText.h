#pragma once

#include "Modal/Prediction.h"

#include <string>
#include <vector>

namespace tool
{

/** The prediction as text: drum note and interval first, then the heads, then the lowest modes. */
std::string predictionText (const modal::Prediction&, const std::string& label);

/** All modes as a table, at most that many rows. */
std::string modeTable (const modal::Prediction&, std::size_t mostRows);

} // namespace tool
