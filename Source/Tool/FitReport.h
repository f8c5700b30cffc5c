#pragma once

#include "Fitting/Drum.h"

#include <string>

namespace tool
{

/** The fit of one head to its taps, as text. */
std::string textOf (const fitting::HeadFit&, modal::HeadSide, const modal::DrumSpec&);

/** The fit of both heads to strikes, as text. */
std::string textOf (const fitting::DrumFit&, const modal::DrumSpec&);

} // namespace tool
