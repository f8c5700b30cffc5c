#pragma once

#include "Files/Json.h"
#include "Fitting/Plan.h"

namespace sheets
{

/** A plan as JSON; lugs count from 1, keys end in their unit. */
files::Json planJson (const fitting::Plan&);

} // namespace sheets
