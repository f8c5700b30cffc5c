#pragma once

#include "Arguments.h"

#include "Modal/Tuning.h"

#include <optional>

namespace tool
{

/** The options for the notes or tensions of both heads and their lugs. */
const OptionGroup& tuningOptions();

/** Changes what the options name. `isComplete` is false for a tuning that is still to be made from the options alone.
    Throws modal::InputError. */
void overrideTuning (const Arguments&, const modal::DrumSpec&, modal::Tuning&, bool isComplete);

/** `--concert-pitch`. */
std::optional<modal::ConcertPitch> concertPitchAsked (const Arguments&);

} // namespace tool
