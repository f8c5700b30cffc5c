#pragma once

#include "Sheets/TuningSheet.h"

/** Sheets and measurements for these tests. */
namespace testsheet
{

/** A sheet without a plan for a 14 × 5.5 inch drum. */
inline reports::TuningSheet sheet (int lugs, modal::ByTapNotes notes)
{
    modal::DrumSpec drum;
    drum.lugs = lugs;
    modal::Tuning tuning;
    tuning.target = notes;
    reports::TuningSheet sheet;
    sheet.wanted = modal::predict (drum, tuning, { .highestFrequency = 800.0 });
    return sheet;
}

/** A fit of one head, without lugs. */
inline reports::MeasuredHead measuredHead (modal::HeadSide side)
{
    reports::MeasuredHead head{ side, {}, "2024-05-17" };
    head.fit.isPossible = true;
    head.fit.tapNote = { 203.4, 0.3 };
    head.fit.tension = { 1987.0, 31.0 };
    return head;
}

} // namespace testsheet
