#include "SheetData.h"

#include "Cautions.h"
#include "JsonList.h"
#include "PlanJson.h"

#include "Files/DrumFile.h"
#include "Files/HoopNames.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>

namespace reports
{

using namespace modal;
using files::Json;

namespace
{

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

void addTurns (TuningSheet& sheet, const fitting::PlanRequest& request, const std::string& nextName, const Tensions& next)
{
    const auto& drum = sheet.wanted.drum;

    if (! nextName.empty())
        sheet.next = NextTuning{ nextName, {} };

    const auto add = [&] (HeadSide side, const HeadPrediction& now, double nextTension)
    {
        const auto& head = side == HeadSide::batter ? drum.batter : drum.resonant;
        const auto response = fitting::calibrated (drum, side, request.thread, request.observations);
        const bool isCalibrated = std::any_of (request.observations.begin(), request.observations.end(),
                                               [side] (const auto& seen) { return seen.side == side; });
        sheet.corrections.push_back (
            { side, isCalibrated, fitting::usualCorrections (drum, side, now.tension, request.thread, response) });

        if (sheet.next)
            sheet.next->moves.push_back (
                { side, now.tapNote, tapNote (drum, side, nextTension),
                  (nextTension - now.tension) / response.tensionPerTurn (head, drum.radius(), request.thread) });
    };

    add (HeadSide::batter, sheet.wanted.batter, next.batter);

    if (drum.hasResonantHead())
        add (HeadSide::resonant, sheet.wanted.resonant, next.resonant);
}

Json asJson (const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    Json measured = Json::array();

    for (const auto& head : sheet.measured)
        measured.push_back (fitJson (head));

    const auto headJson = [] (const HeadPrediction& head)
    {
        return Json{ { "tap_note_hz", head.tapNote },
                     { "tension_n_per_m", head.tension },
                     { "force_per_rod_n", head.forcePerLug },
                     { "yield_share", head.yieldShare } };
    };

    Json target{ { "drum_note_hz", p.drumNote }, { "drum_note_t60_s", p.sustain }, { "batter", headJson (p.batter) } };

    if (sheet.ringWiresOn)
        target["drum_note_t60_wires_on_s"] = *sheet.ringWiresOn;

    if (p.drum.hasResonantHead())
    {
        target["resonant"] = headJson (p.resonant);
        target["interval"] = p.interval.name();
    }

    Json object{ { "title", sheet.title },
                 { "date", sheet.date },
                 { "notes", sheet.notes },
                 { "drum", files::drumAsJson (p.drum) },
                 { "wires", files::wiresAsJson (sheet.fittings.wires) },
                 { "hoop", files::nameOf (sheet.fittings.hoop) },
                 { "lug_one", sheet.lugOne },
                 { "tuning", files::tuningAsJson (p.tuning, p.drum) },
                 { "target", target },
                 { "measured", measured } };

    if (sheet.plan)
        object["plan"] = planJson (*sheet.plan);

    for (const auto& head : sheet.corrections)
    {
        Json rows = Json::array();

        for (const auto& row : head.corrections)
            rows.push_back (
                Json{ { "heard_cents", row.cents }, { "one_rod_turns", row.oneRod }, { "all_rods_turns", row.allRods } });

        object["corrections"][head.side == HeadSide::batter ? "batter" : "resonant"] = rows;
    }

    if (sheet.next)
    {
        Json moves = Json::array();

        for (const auto& move : sheet.next->moves)
            moves.push_back (Json{ { "head", move.side == HeadSide::batter ? "batter" : "resonant" },
                                   { "from_hz", move.fromNote },
                                   { "to_hz", move.toNote },
                                   { "turns", move.turns } });

        object["next"] = Json{ { "name", sheet.next->name }, { "moves", moves } };
    }

    object["cautions"] = listOf (usualCautions());
    return object;
}

std::string asCsv (const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    const auto cell = [] (double value) { return std::isfinite (value) ? modal::exactText (value) : std::string(); };
    const auto measured = [&] (HeadSide side) -> std::string
    {
        for (const auto& head : sheet.measured)
            if (head.side == side && head.fit.isPossible)
                return cell (head.fit.tapNote.value) + "," + cell (head.fit.tension.value) + "," + cell (head.fit.tension.error) +
                       "," + csvText (head.date);

        return ",,,";
    };
    return "title,date,diameter_m,depth_m,lugs,batter_tap_note_hz,batter_tension_n_per_m,resonant_tap_note_hz,"
           "resonant_tension_n_per_m,interval_semitones,drum_note_hz,drum_note_t60_s,drum_note_t60_wires_on_s,batter_measured_"
           "tap_note_hz,"
           "batter_measured_tension_n_per_m,batter_measured_tension_error_n_per_m,batter_measured_date,resonant_measured_tap_"
           "note_hz,resonant_measured_tension_n_per_m,resonant_measured_tension_error_n_per_m,resonant_measured_date,notes\r\n" +
           csvText (sheet.title) + "," + csvText (sheet.date) + "," + cell (p.drum.diameter) + "," + cell (p.drum.depth) + "," +
           std::to_string (p.drum.lugs) + "," + cell (p.batter.tapNote) + "," + cell (p.batter.tension) + "," +
           cell (p.resonant.tapNote) + "," + cell (p.resonant.tension) + "," + cell (p.interval.semitones) + "," +
           cell (p.drumNote) + "," + cell (p.sustain) + "," + (sheet.ringWiresOn ? cell (*sheet.ringWiresOn) : "") + "," +
           measured (HeadSide::batter) + "," + measured (HeadSide::resonant) + "," + csvText (sheet.notes) + "\r\n";
}

} // namespace reports
