#pragma once

#include "Canvas.h"
#include "FitJson.h"

#include "Modal/hardware/Fittings.h"
#include "Fitting/Plan.h"
#include "Modal/Prediction.h"

#include <optional>
#include <string>

namespace sheets
{

/** The contents of a tuning sheet. */
struct TuningSheet
{
    std::string title;                    ///< of drum and tuning
    std::string date;                     ///< as the person writes it, e.g. 2024-05-17 (ISO 8601); may be empty
    std::string notes;                    ///< free text; may be empty
    std::string lugOne;                   ///< where lug 1 is on the shell; may be empty
    modal::Prediction wanted;             ///< the target and its prediction
    modal::Fittings fittings{};           ///< wires and hoops
    std::vector<MeasuredHead> measured{}; ///< from recordings, if any
    std::optional<fitting::Plan> plan{};
};

/** Draws one A4 page. Text that does not fit is shortened and marked; the cautions at the foot are always complete. */
void draw (Canvas&, const TuningSheet&);

/** For a database: one object, keys end in their unit. */
files::Json asJson (const TuningSheet&);

/** For a database: a heading and one row (RFC 4180). */
std::string asCsv (const TuningSheet&);

/** Cautions that belong on every sheet and lesson. */
const std::vector<std::string>& usualCautions();

} // namespace sheets
