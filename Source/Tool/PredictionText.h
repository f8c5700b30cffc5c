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

/** Cautions about head stress and force per rod; empty if both are moderate. */
std::vector<std::string> cautions (const modal::Prediction&);

/** "G#3 +12" at the tuning's concert pitch. */
std::string noteOf (double hertz, const modal::Prediction&);

} // namespace tool
