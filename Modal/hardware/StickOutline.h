#pragma once

#include "Stick.h"

namespace modal
{

/** Diameter in m of what is seen of a stick at a place in m from the end of its tip; of a brush its handle, and 0 where there are only wires. */
double outlineAt (const StickSpec&, double place);

} // namespace modal
