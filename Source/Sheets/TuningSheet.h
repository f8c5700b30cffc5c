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

/** What one head turns from one tuning to the next. */
struct HeadMove
{
    modal::HeadSide side = modal::HeadSide::batter;
    double fromNote = 0.0, toNote = 0.0; ///< Hz
    double turns = 0.0;                  ///< of every rod; positive tightens
};

/** Another tuning of the same drum, and the way there; the way back is the same the other way round. */
struct NextTuning
{
    std::string name;
    std::vector<HeadMove> moves; ///< one for each head
};

/** Which turns take away which errors on one head. */
struct HeadCorrections
{
    modal::HeadSide side = modal::HeadSide::batter;
    bool isCalibrated = false;
    std::vector<fitting::Correction> corrections;
};

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
    std::vector<HeadCorrections> corrections{};
    std::optional<NextTuning> next{};
};

/** Draws one A4 page. Text that does not fit is shortened and marked; the cautions at the foot are always complete. */
void draw (Canvas&, const TuningSheet&);

/** The second page, for the work itself: order of work, plan, which turn takes away which error, the next tuning and the way back. */
void drawWork (Canvas&, const TuningSheet&);

/** For a database: one object, keys end in their unit. */
files::Json asJson (const TuningSheet&);

/** For a database: a heading and one row (RFC 4180). */
std::string asCsv (const TuningSheet&);

/** Cautions that belong on every sheet and lesson. */
const std::vector<std::string>& usualCautions();

} // namespace sheets
