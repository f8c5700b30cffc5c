#pragma once

#include "Arguments.h"

#include "Modal/hardware/Fittings.h"

namespace tool
{

/** The options for wires, hoops and stick. */
const OptionGroup& hardwareOptions();

/** Changes what the options name. Throws modal::InputError. */
void overrideFittings (const Arguments&, modal::Fittings&);

} // namespace tool
