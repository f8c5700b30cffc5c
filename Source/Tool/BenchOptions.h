#pragma once

#include "Arguments.h"

#include "Fitting/Plan.h"
#include "Sheets/FitJson.h"

namespace tool
{

/** Options that `plan` and `sheet` share: the present tuning, the rods, the calibration. */
OptionGroup planOptions();

/** True if the arguments give the present tuning. */
bool hasPlan (const Arguments&);

/** Reads the options. Throws modal::InputError. */
fitting::PlanRequest readPlanRequest (const Arguments&, const modal::DrumSpec&, const modal::Tuning& wanted);

/** Reads files of `fit --json`, separated by commas. Throws modal::InputError on `field` for a file that cannot be read, a fit
   without a result, a head given twice, or the wrong number of lugs. */
std::vector<sheets::MeasuredHead> measuredHeads (const std::string& paths, const std::string& field, const modal::DrumSpec&);

/** The parts between a separator, without the blanks around them. */
std::vector<std::string> splitAt (const std::string& text, char separator);

/** "1/4", "0.25" or "-1/8" turns. Throws modal::InputError on `field`. */
double readTurns (const std::string& text, const std::string& field);

/** "G#3, G#3 -5, 207Hz" to Hz. */
std::vector<double> readNotes (const std::string& text, modal::ConcertPitch, const std::string& field);

} // namespace tool
