#pragma once

#include "Modal/Prediction.h"

#include <string>

namespace reports
{

/** "14 x 5.5 in". */
std::string sizeText (const modal::DrumSpec&);

/** "Maple 14 x 5, Evening" from whichever names there are, or the drum's size. */
std::string labelOf (const modal::DrumSpec&, const modal::Tuning&);

/** "G#3 +12" at the tuning's concert pitch. */
std::string noteOf (double hertz, const modal::Prediction&);

} // namespace reports
