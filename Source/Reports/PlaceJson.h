#pragma once

#include "NamedPrediction.h"

#include "Files/Json.h"

namespace reports
{

/** What the place of a drum makes of it, under "at_listener", and the place itself. Infinite distances and differences are null.
 */
files::Json placeJson (const InPlace&);

} // namespace reports
