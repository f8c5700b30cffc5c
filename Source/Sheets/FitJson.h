#pragma once

#include "Files/Json.h"
#include "Modal/FitHead.h"

namespace sheets
{

/** What taps said about a head, as JSON; lugs count from 1, every estimate is a value and an error. */
files::Json fitJson (const modal::HeadFit&, modal::HeadSide);

} // namespace sheets
