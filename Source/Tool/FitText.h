#pragma once

#include "Modal/FitDrum.h"

#include <string>

namespace tool
{

/** What taps said about one head, for a person. */
std::string textOf (const modal::HeadFit&, modal::HeadSide);

/** What strikes said about both heads. */
std::string textOf (const modal::DrumFit&);

} // namespace tool
