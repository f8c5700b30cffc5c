#pragma once

#include "Modal/Prediction.h"

#include <string>
#include <vector>

namespace tool
{

/** The prediction for reading beside the drum: the answer first, then the heads, then the modes. */
std::string predictionText (const modal::Prediction&, const std::string& label);

/** All modes as a table, at most that many rows. */
std::string modeTable (const modal::Prediction&, std::size_t mostRows);

/** What to take care of: film stress, rod force. Empty if nothing stands out. */
std::vector<std::string> cautions (const modal::Prediction&);

/** "G#3 +12" at the tuning's concert pitch. */
std::string noteOf (double hertz, const modal::Prediction&);

} // namespace tool
