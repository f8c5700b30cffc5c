#pragma once

#include "Files/Json.h"
#include "Fitting/Plan.h"

namespace reports
{

/** A plan as JSON; lugs count from 1, keys end in their unit. */
files::Json planJson (const fitting::Plan&);

} // namespace reports
