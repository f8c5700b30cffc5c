#pragma once

#include "FitJson.h"

#include "Fitting/Plan.h"
#include "Modal/Prediction.h"
#include "Modal/hardware/Fittings.h"

#include <optional>
#include <string>
#include <vector>

namespace reports
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
    std::optional<double> ringWiresOn{};  ///< s, of the drum note as played; none without wires
    modal::Fittings fittings{};           ///< wires and hoops
    std::vector<MeasuredHead> measured{}; ///< from recordings, if any
    std::optional<fitting::Plan> plan{};
    std::vector<HeadCorrections> corrections{};
    std::optional<NextTuning> next{};
};

/** Adds which turns take away which errors on each head, by what `request` knows of this drum's rods, and, with a name, the way
   to the tensions of another tuning. */
void addTurns (TuningSheet&, const fitting::PlanRequest&, const std::string& nextName = {}, const modal::Tensions& next = {});

/** For a database: one object, keys end in their unit. */
files::Json asJson (const TuningSheet&);

/** For a database: a heading and one row (RFC 4180). */
std::string asCsv (const TuningSheet&);

} // namespace reports
