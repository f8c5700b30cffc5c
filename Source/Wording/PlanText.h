#pragma once

#include "Fitting/Plan.h"

#include <string>
#include <vector>

namespace wording
{

/** "1/4 up", "3/16 down", or "leave". @param turns  to the nearest 64th */
std::string keyTurn (double turns);

/** "1/4 turn up", to the nearest sixteenth; "under 1/16 turn down" below half of that, "no turn" for 0. */
std::string nearTurn (double turns);

/** The same without the unit, for tables: "1/4 up". */
std::string nearFraction (double turns);

/** "all rods 1/4 up", or "1: 1/4 up, 5: 3/16 up; leave the others" in tightening order. */
std::string keyTurns (const fitting::Pass&);

/** "1 5 3 7 2 6 4 8" */
std::string tighteningOrder (const std::vector<int>& lugs);

std::string text (const fitting::PlanCaution&, modal::HeadSide);

/** Cautions for any plan. */
const std::vector<std::string>& planCautions();

} // namespace wording
