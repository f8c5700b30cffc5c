#pragma once

#include "Arguments.h"

#include "Reports/NamedPrediction.h"

namespace tool
{

struct TunedDrum;

/** The option that sets the beat against which placeText() counts. */
extern const Option tempoOption;

/** What the place of the drum makes of it; none without a place. Plays one stroke. */
std::optional<reports::InPlace> inPlace (const Arguments&, const TunedDrum&, const modal::Prediction&);

/** The results as text. */
std::string placeText (const reports::InPlace&);

} // namespace tool
