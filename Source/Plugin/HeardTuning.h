#pragma once

#include "Values.h"

#include "Fitting/Head.h"

namespace plugin
{

/** Sets one head's tap note and lugs to the measured ones; the other head keeps its note.

    @throws modal::InputError naming the parameter that cannot hold a measured value; `values` is then unchanged */
void setHeard (Values& values, modal::HeadSide, const fitting::HeadFit&);

} // namespace plugin
