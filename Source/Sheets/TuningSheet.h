#pragma once

#include "Canvas.h"

#include "Reports/SheetData.h"

namespace sheets
{

/** Draws one A4 page. Text that does not fit is shortened and marked; the cautions at the foot are always complete. */
void draw (Canvas&, const reports::TuningSheet&);

/** The second page, for the work itself: order of work, plan, the turns that correct an error, the next tuning and the way back. */
void drawWork (Canvas&, const reports::TuningSheet&);

} // namespace sheets
