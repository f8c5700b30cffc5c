#pragma once

#include "Files/Json.h"
#include "Modal/Plan.h"

namespace sheets
{

/** A plan as JSON; lugs count from 1, keys end in their unit. */
files::Json planJson (const modal::Plan&);

} // namespace sheets
