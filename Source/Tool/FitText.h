#pragma once

#include "Fitting/Drum.h"

#include <string>

namespace tool
{

/** What taps said about one head, for a person. */
std::string textOf (const fitting::HeadFit&, modal::HeadSide);

/** What strikes said about both heads. */
std::string textOf (const fitting::DrumFit&);

} // namespace tool
