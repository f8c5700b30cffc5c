#include "FindJson.h"

#include <cmath>

namespace reports
{

using namespace finding;
using files::Json;

namespace
{

Json orNull (double value)
{
    return std::isfinite (value) ? Json (value) : Json();
}

} // namespace

Json findJson (const std::string& label, const std::vector<Wish>& wished, const FindResult& result, modal::ConcertPitch pitch,
               const PlayedMap* played)
{
    auto wishes = Json::array(), tunings = Json::array(), conflicts = Json::array();

    for (const auto& wish : wished)
    {
        auto ranges = Json::array();

        for (const auto& range : wish.ranges)
            ranges.push_back (Json{ { "low", orNull (range.low) }, { "high", orNull (range.high) } });

        wishes.push_back (Json{
            { "figure", infoOf (wish.figure).jsonKey }, { "text", wish.text }, { "reason", wish.reason }, { "ranges", ranges } });
    }

    for (const auto& tuning : result.list)
    {
        Json item{ { "kind", tuning.kind }, { "meets_all", tuning.meetsAll() } };

        for (const auto& info : figures())
            if (! std::isnan (of (tuning.figures, info.figure)))
                item[info.jsonKey] = orNull (of (tuning.figures, info.figure));

        auto misses = Json::array();

        for (std::size_t w = 0; w < wished.size(); ++w)
            if (tuning.misses[w] != 0.0)
            {
                const auto& wish = wished[w];
                const double value = of (tuning.figures, wish.figure);
                misses.push_back (Json{ { "wish", w + 1 },
                                        { "steps", orNull (tuning.misses[w]) },
                                        { "text", missText (wish.figure, value, nearestAllowed (wish, value)) } });
            }

        item["misses"] = misses;
        tunings.push_back (item);
    }

    const auto sentences = explain (result, wished, pitch);

    for (std::size_t i = 0; i < result.conflicts.size(); ++i)
    {
        auto numbers = Json::array(), nearest = Json::array();

        for (std::size_t k = 0; k < result.conflicts[i].wishes.size(); ++k)
        {
            numbers.push_back (result.conflicts[i].wishes[k] + 1);
            nearest.push_back (orNull (result.conflicts[i].nearest[k]));
        }

        conflicts.push_back (Json{ { "wishes", numbers }, { "nearest", nearest }, { "text", sentences[i] } });
    }

    Json json{ { "drum", label },
               { "wishes", wishes },
               { "all_met", result.areAllMet },
               { "tunings", tunings },
               { "conflicts", conflicts } };

    if (played != nullptr)
    {
        Json errors = Json::object();

        for (const auto& info : figures())
            if (info.isPlayed)
                errors[info.jsonKey] = orNull (of (played->errors(), info.figure));

        json["played_map_error_steps"] = errors;
    }

    return json;
}

} // namespace reports
