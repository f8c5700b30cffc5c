#pragma once

#include "Arguments.h"
#include "DrumOptions.h"

namespace tool
{

/** The options for wires, hoops and stick. */
const OptionGroup& fittingOptions();

/** Changes what the options name. Throws modal::InputError. */
void overrideFittings (const Arguments&, modal::Fittings&);

} // namespace tool
