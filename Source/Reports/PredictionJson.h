#pragma once

#include "NamedPrediction.h"

#include "Files/Json.h"

namespace reports
{

/** A prediction as JSON; every key ends in its unit, in SI but for MPa, percent, cents and semitones. */
files::Json predictionJson (const NamedPrediction&);

/** The modes alone, as the list that predictionJson() has under "modes". */
files::Json modesJson (const modal::Prediction&);

} // namespace reports
