#pragma once

#include "Modal/pitch/Note.h"
#include "Fitting/Plan.h"

#include <string>
#include <vector>

namespace sheets
{

/** One head's plan as lines for a page: tap note now and target, then the passes. Equal passes share a line. If a pass is
    uncertain by more than a semitone (common practice, no source), the line has no note but says to tap again and make a new plan, and
    later passes are left out. */
std::vector<std::string> planLines (const fitting::HeadPlan&, modal::ConcertPitch);

} // namespace sheets
