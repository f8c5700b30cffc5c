#pragma once

#include "Files/Json.h"
#include "Fitting/Plan.h"
#include "Modal/Prediction.h"
#include "Reports/FitJson.h"

#include <vector>

namespace web
{

/** Whether a request says how the drum is now, so that a plan can be made. */
bool saysHowItIs (const files::Json& request);

/** The heads that `measured` of a request lists. @throws modal::InputError */
std::vector<reports::MeasuredHead> measuredHeads (const files::Json& request);

/** Reads how the drum is now, what turns did, and the rods. instrument.js lists the keys. @throws modal::InputError */
fitting::PlanRequest readPlan (const files::Json& request, const modal::DrumSpec&, const modal::Tuning& wanted);

} // namespace web
