#include "TuningSheet.h"

#include "Files/DrumFile.h"
#include "Files/NumberText.h"

#include <cmath>

namespace sheets
{

using namespace modal;
using files::Json;

namespace
{

Json estimateJson (const Estimate& estimate)
{
    return Json::Object{ { "value", estimate.value }, { "error", estimate.error } };
}

Json measuredJson (const MeasuredHead& measured)
{
    const auto& fit = measured.fit;
    Json::Object object{ { "head", measured.side == HeadSide::batter ? "batter" : "resonant" },
                         { "is_possible", fit.isPossible } };

    if (fit.isPossible)
    {
        Json::Array lugs;

        for (const auto& lug : fit.lugCents)
            lugs.push_back (estimateJson (lug));

        object.emplace_back ("tap_note_hz", estimateJson (fit.tapNote));
        object.emplace_back ("tension_n_per_m", estimateJson (fit.tension));
        object.emplace_back ("mass_ratio", estimateJson (fit.massRatio));
        object.emplace_back ("loss_ratio", estimateJson (fit.lossRatio));
        object.emplace_back ("lugs_cents", lugs);
    }

    Json::Array doubts;

    for (const auto& doubt : fit.doubts)
        doubts.emplace_back (doubt);

    object.emplace_back ("doubts", doubts);
    return object;
}

Json planJson (const Plan& plan)
{
    Json::Array heads;

    for (const auto& head : plan.heads)
    {
        Json::Array passes;

        for (const auto& pass : head.passes)
        {
            Json::Array order, turns;

            for (const int lug : pass.order)
                order.emplace_back (lug + 1);

            for (const double turn : pass.turns)
                turns.emplace_back (turn);

            passes.push_back (Json::Object{ { "order", order },
                                            { "turns", turns },
                                            { "tap_note_hz", pass.tapNote },
                                            { "tap_note_error_cents", pass.tapNoteError },
                                            { "tension_n_per_m", pass.tension } });
        }

        heads.push_back (Json::Object{ { "head", head.side == HeadSide::batter ? "batter" : "resonant" },
                                       { "from_hz", head.fromNote },
                                       { "to_hz", head.toNote },
                                       { "is_calibrated", head.isCalibrated },
                                       { "film_share", head.response.filmShare },
                                       { "force_per_rod_n", head.forcePerRod },
                                       { "torque_low_n_m", head.torque.low },
                                       { "torque_high_n_m", head.torque.high },
                                       { "passes", passes } });
    }

    return Json::Object{ { "heads", heads } };
}

/** RFC 4180: quoted where it must be. */
std::string csvText (const std::string& text)
{
    if (text.find_first_of (",\"\r\n") == std::string::npos)
        return text;

    std::string quoted = "\"";

    for (const char c : text)
        quoted += c == '"' ? std::string ("\"\"") : std::string (1, c);

    return quoted + "\"";
}

} // namespace

Json asJson (const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    Json::Array measured, cautions;

    for (const auto& head : sheet.measured)
        measured.push_back (measuredJson (head));

    for (const auto& caution : usualCautions())
        cautions.emplace_back (caution);

    const auto headJson = [] (const HeadPrediction& head)
    {
        return Json::Object{ { "tap_note_hz", head.tapNote },
                             { "tension_n_per_m", head.tension },
                             { "force_per_lug_n", head.forcePerLug },
                             { "yield_share", head.yieldShare } };
    };

    Json::Object target{ { "drum_note_hz", p.drumNote }, { "drum_note_t60_s", p.sustain }, { "batter", headJson (p.batter) } };

    if (p.drum.hasResonantHead())
    {
        target.emplace_back ("resonant", headJson (p.resonant));
        target.emplace_back ("interval", p.interval.name());
    }

    Json::Object object{ { "title", sheet.title },
                         { "date", sheet.date },
                         { "notes", sheet.notes },
                         { "drum", files::drumAsJson (p.drum) },
                         { "tuning", files::tuningAsJson (p.tuning, p.drum) },
                         { "target", target },
                         { "measured", measured } };

    if (sheet.plan)
        object.emplace_back ("plan", planJson (*sheet.plan));

    object.emplace_back ("cautions", cautions);
    return object;
}

std::string asCsv (const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    const auto cell = [] (double value) { return std::isfinite (value) ? files::exactText (value) : std::string(); };
    return "title,date,diameter_m,depth_m,lugs,batter_tap_note_hz,batter_tension_n_per_m,resonant_tap_note_hz,"
           "resonant_tension_n_per_m,interval_semitones,drum_note_hz,drum_note_t60_s,notes\r\n" +
           csvText (sheet.title) + "," + csvText (sheet.date) + "," + cell (p.drum.diameter) + "," + cell (p.drum.depth) + "," +
           std::to_string (p.drum.lugs) + "," + cell (p.batter.tapNote) + "," + cell (p.batter.tension) + "," +
           cell (p.resonant.tapNote) + "," + cell (p.resonant.tension) + "," + cell (p.interval.semitones) + "," +
           cell (p.drumNote) + "," + cell (p.sustain) + "," + csvText (sheet.notes) + "\r\n";
}

} // namespace sheets
