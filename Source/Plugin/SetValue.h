#pragma once

#include "Values.h"

namespace plugin
{

/** Sets a parameter to a value in SI, or in its own unit where it has none.

    @throws modal::InputError naming the parameter, the value and the range, if it cannot hold that */
void setSi (Values&, Parameter, double si);

} // namespace plugin
