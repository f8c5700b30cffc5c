#pragma once

#include "Fitting/Drum.h"

#include <string>

namespace tool
{

/** The fit of one head to its taps, as text. */
std::string textOf (const fitting::HeadFit&, modal::HeadSide);

/** The fit of both heads to strikes, as text. */
std::string textOf (const fitting::DrumFit&);

} // namespace tool
