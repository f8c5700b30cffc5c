#pragma once

#include "Values.h"

#include "Fitting/Head.h"

namespace plugin
{

/** Sets one head's tap note and lugs to what was heard; the other head stays where it is.

    @throws modal::InputError naming the parameter that cannot hold what was heard; `values` is then as it was */
void setHeard (Values& values, modal::HeadSide, const fitting::HeadFit&);

} // namespace plugin
