#pragma once

#include "Arguments.h"

#include "Fitting/Plan.h"
#include "Sheets/FitJson.h"

namespace tool
{

/** Options that `plan` and `sheet` share: the drum as it is, its rods, and what was seen when they were turned. */
OptionGroup planOptions();

/** True if the arguments say how the drum is now. */
bool hasPlan (const Arguments&);

/** What the options ask for. Throws modal::InputError. */
fitting::PlanRequest readPlanRequest (const Arguments&, const modal::DrumSpec&, const modal::Tuning& wanted);

/** What "fit" wrote about heads, from files with commas between. Throws modal::InputError on `field`: for a file that cannot be
   read, a head that was not found or is there twice, or lugs that the drum lacks. */
std::vector<sheets::MeasuredHead> measuredHeads (const std::string& paths, const std::string& field, const modal::DrumSpec&);

/** The parts between a separator, without the blanks around them. */
std::vector<std::string> splitAt (const std::string& text, char separator);

/** "1/4", "0.25" or "-1/8" turns. Throws modal::InputError on `field`. */
double readTurns (const std::string& text, const std::string& field);

/** "G#3, G#3 -5, 207Hz" to Hz. */
std::vector<double> readNotes (const std::string& text, modal::ConcertPitch, const std::string& field);

} // namespace tool
