#pragma once

#include "Arguments.h"

#include "Fitting/Plan.h"
#include "Reports/FitJson.h"

namespace tool
{

/** Options that `plan` and `sheet` share: the present tuning, the rods, the calibration. */
OptionGroup planOptions();

/** True if the arguments give the present tuning. */
bool hasPlan (const Arguments&);

/** Reads what the options say of the rods and of turns of another day, as a plan or corrections need it. Throws
   modal::InputError. */
void readRods (const Arguments&, const modal::Tuning& wanted, fitting::PlanRequest&);

/** Reads all of the options. Throws modal::InputError. */
fitting::PlanRequest readPlanRequest (const Arguments&, const modal::DrumSpec&, const modal::Tuning& wanted);

/** Turns: "1/4", "0.25" or "-1/8". Throws modal::InputError on `field`. */
double readTurns (const std::string& text, const std::string& field);

/** Reads files of `fit --json`, separated by commas. Throws modal::InputError on `field` for a file that cannot be read, a fit
   without a result, a head given twice, or the wrong number of lugs. */
std::vector<reports::MeasuredHead> measuredHeads (const std::string& paths, const std::string& field, const modal::DrumSpec&);

} // namespace tool
