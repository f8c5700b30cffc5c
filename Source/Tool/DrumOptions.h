#pragma once

#include "Arguments.h"

#include "Modal/DrumSpec.h"

namespace tool
{

/** The options for shell, heads, muffling and air. */
const OptionGroup& drumOptions();

/** Changes what the options name. Throws modal::InputError, also if the drum that results cannot be. */
void overrideDrum (const Arguments&, modal::DrumSpec&);

/** The weather that `--air` gives. Throws modal::InputError. */
std::optional<modal::Weather> weatherAsked (const Arguments&);

} // namespace tool
