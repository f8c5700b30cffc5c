#include "ComparisonJson.h"

#include "PredictionJson.h"

#include <algorithm>

namespace reports
{

using namespace modal;
using files::Json;

namespace
{
Json changeJson (const HeadChange& change)
{
    return Json{ { "tap_note_semitones", change.semitones }, { "tension_percent", 100.0 * change.tensionShare } };
}
} // namespace

HeadChange changeOf (const HeadPrediction& from, const HeadPrediction& to)
{
    return { centsBetween (from.tapNote, to.tapNote) / 100.0, to.tension / from.tension - 1.0 };
}

bool haveResonantHeads (const std::vector<NamedPrediction>& tunings)
{
    return std::all_of (tunings.begin(), tunings.end(), [] (const auto& t) { return t.prediction.drum.hasResonantHead(); });
}

Json comparisonJson (const std::vector<NamedPrediction>& tunings)
{
    const auto& reference = tunings.front().prediction;
    Json list = Json::array();

    for (const auto& tuning : tunings)
    {
        const auto& p = tuning.prediction;
        Json change{ { "drum_note_cents", centsBetween (reference.drumNote, p.drumNote) },
                     { "batter", changeJson (changeOf (reference.batter, p.batter)) } };

        if (haveResonantHeads (tunings))
            change["resonant"] = changeJson (changeOf (reference.resonant, p.resonant));

        list.push_back (Json{ { "label", tuning.label }, { "change", change }, { "prediction", predictionJson (tuning) } });
    }

    return Json{ { "reference", tunings.front().label }, { "tunings", list } };
}

} // namespace reports
