#pragma once

#include "Files/Json.h"
#include "Modal/Prediction.h"

namespace tool
{

/** A prediction as JSON; every key ends in its unit, in SI but for MPa, percent, cents and semitones. */
files::Json predictionJson (const modal::Prediction&, const std::string& label);

/** The modes alone, as the list that predictionJson() has under "modes". */
files::Json modesJson (const modal::Prediction&);

} // namespace tool
