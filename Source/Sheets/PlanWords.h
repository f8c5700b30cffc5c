#pragma once

#include "Modal/pitch/Note.h"
#include "Fitting/Plan.h"

#include <string>
#include <vector>

namespace sheets
{

/** One head's plan as lines for a page: where it stands and is to go, then its passes. Equal passes make one line. Where a pass
   may end more than a semitone from where it should (common practice, no source), no note is given, the line says to tap and plan
    anew, and what would follow is left out. */
std::vector<std::string> planLines (const fitting::HeadPlan&, modal::ConcertPitch);

} // namespace sheets
