#pragma once

#include "Reports/NamedPrediction.h"

#include <optional>
#include <string>
#include <vector>

namespace tool
{

/** The prediction as text: drum note and interval first, then the heads, then the lowest modes. */
std::string predictionText (const reports::NamedPrediction&);

/** These modes of a prediction as a table. */
std::string modeTable (const std::vector<modal::Mode>&, const modal::Prediction&);

/** The modes in which the heads move. */
std::vector<modal::Mode> modesOfHeads (const modal::Prediction&);

/** "0.98 s". */
std::string ringText (double t60);

/** "ring 0.98 s to -60 dB, wires off; 0.29 s, wires on". */
std::string ringsText (const modal::Prediction&, std::optional<double> ringWiresOn);

} // namespace tool
