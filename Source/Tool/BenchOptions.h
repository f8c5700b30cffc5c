#pragma once

#include "Arguments.h"

#include "Modal/FitHead.h"
#include "Modal/Plan.h"

namespace tool
{

/** Options that `plan` and `sheet` share: the drum as it is, its rods, and what was seen when they were turned. */
OptionGroup planOptions();

/** True if the arguments say how the drum is now. */
bool hasPlan (const Arguments&);

/** What the options ask for. Throws modal::InputError. */
modal::PlanRequest readPlanRequest (const Arguments&, const modal::DrumSpec&, const modal::Tuning& wanted);

/** "1/4", "0.25" or "-1/8" turns. Throws modal::InputError on `field`. */
double readTurns (const std::string& text, const std::string& field);

/** "G#3, G#3 -5, 207Hz" to Hz. */
std::vector<double> readNotes (const std::string& text, modal::ConcertPitch, const std::string& field);

} // namespace tool
