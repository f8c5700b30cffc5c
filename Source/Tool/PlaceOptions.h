#pragma once

#include "Arguments.h"

#include "Place/Place.h"

#include <optional>

namespace tool
{

/** The options for the place where the drum is played and heard. */
const OptionGroup& placeOptions();

/** Puts the drum where `--place` says, and changes what the other options name; these need a place. Throws modal::InputError,
   also if the place that results cannot be. */
void overridePlace (const Arguments&, std::optional<place::Place>&);

} // namespace tool
