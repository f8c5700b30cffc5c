#include "FitJson.h"

#include "JsonList.h"

#include "Modal/InputError.h"

namespace sheets
{

using namespace fitting;
using namespace modal;
using files::Json;

namespace
{

Json estimateJson (const Estimate& estimate)
{
    return Json::Object{ { "value", estimate.value }, { "error", estimate.error } };
}

/** Reads members of one object; errors name the file and the key. */
class Reader
{
public:
    Reader (const Json& json, std::string where) : object (json), path (std::move (where)) {}

    const Json& at (const char* key) const
    {
        if (const auto* member = object.find (key))
            return *member;

        throw InputError::fault (path + ": " + key, "is missing", "what \"snarewright fit --json\" writes");
    }

    double number (const char* key, const Range& range) const
    {
        const auto* value = at (key).number();

        if (value == nullptr)
            throw InputError (path + ": " + key, at (key).described(), "a number");

        return requireInRange (*value, range, path + ": " + key);
    }

    Estimate estimate (const char* key, const Range& range) const
    {
        const Reader inner (at (key), path + ": " + key);
        return { inner.number ("value", range), inner.number ("error", { 0.0, 1.0e9, range.unit }) };
    }

    const Json::Array& list (const char* key) const
    {
        if (const auto* array = at (key).array())
            return *array;

        throw InputError (path + ": " + key, at (key).described(), "a list");
    }

    bool boolean (const char* key) const
    {
        if (const auto* value = at (key).boolean())
            return *value;

        throw InputError (path + ": " + key, at (key).described(), "true or false");
    }

    std::string text (const char* key) const
    {
        if (const auto* value = at (key).text())
            return *value;

        throw InputError (path + ": " + key, at (key).described(), "text");
    }

    std::vector<std::string> sentences (const char* key) const
    {
        std::vector<std::string> found;

        for (const auto& item : list (key))
            if (const auto* sentence = item.text())
                found.push_back (*sentence);

        return found;
    }

private:
    const Json& object;
    std::string path;
};

MeasuredHead readHead (const Json& json, const std::string& source)
{
    const Reader reader (json, source);
    const auto side = reader.text ("head");

    if (side != "batter" && side != "resonant")
        throw InputError (source + ": head", '"' + side + '"', "batter or resonant");

    MeasuredHead head{ side == "batter" ? HeadSide::batter : HeadSide::resonant, {}, {} };

    if (json.find ("date") != nullptr)
        head.date = reader.text ("date");

    auto& fit = head.fit;
    fit.isPossible = reader.boolean ("is_possible");
    fit.doubts = reader.sentences ("doubts");

    if (json.find ("warnings") != nullptr)
        fit.warnings = reader.sentences ("warnings");

    fit.tapsUsed = static_cast<int> (reader.number ("taps_used", { 0.0, 1.0e6, "" }));

    if (! fit.isPossible)
        return head;

    fit.tapNote = reader.estimate ("tap_note_hz", { 1.0, 1.0e4, "Hz" });
    fit.tension = reader.estimate ("tension_n_per_m", { 1.0, 1.0e6, "N/m" });
    fit.massRatio = reader.estimate ("mass_ratio", { 0.1, 10.0, "" });
    fit.lossRatio = reader.estimate ("loss_ratio", { -1.0e3, 1.0e3, "" });

    for (const auto& lug : reader.list ("lugs_cents"))
    {
        const Reader cents (lug, source + ": lugs_cents");
        fit.lugCents.push_back (
            { cents.number ("value", { -1200.0, 1200.0, "cents" }), cents.number ("error", { 0.0, 1.0e4, "cents" }) });
    }

    if (json.find ("lug_waves") != nullptr)
        for (const auto& wave : reader.list ("lug_waves"))
        {
            const Reader one (wave, source + ": lug_waves");
            fit.lugWaves.push_back ({ static_cast<int> (one.number ("times_round", { 2.0, 16.0, "" })),
                                      one.estimate ("cents", { 0.0, 1200.0, "cents" }) });
        }

    return head;
}

} // namespace

Json fitJson (const MeasuredHead& head)
{
    const auto& fit = head.fit;
    Json::Object object{ { "head", head.side == HeadSide::batter ? "batter" : "resonant" },
                         { "date", head.date },
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

        Json::Array waves;

        for (const auto& wave : fit.lugWaves)
            waves.push_back (Json::Object{ { "times_round", wave.waves }, { "cents", estimateJson (wave.cents) } });

        object.emplace_back ("lug_waves", waves);
    }

    Json::Array suspects;

    for (const auto& suspect : fit.suspects)
        suspects.push_back (Json::Object{
            { "lug", suspect.lug + 1 }, { "cents", estimateJson (suspect.cents) }, { "probability", suspect.probability } });

    object.emplace_back ("suspects", suspects);
    object.emplace_back ("unevenness_standard_deviations", fit.unevenness);
    object.emplace_back ("misfit_standard_deviations", fit.misfit);
    object.emplace_back ("taps_used", fit.tapsUsed);
    object.emplace_back ("warnings", listOf (fit.warnings));
    object.emplace_back ("doubts", listOf (fit.doubts));
    return object;
}

Json fitJson (const DrumFit& fit, const std::string& date)
{
    Json::Array heads, partials;

    if (fit.isPossible)
    {
        heads.push_back (fitJson (MeasuredHead{ HeadSide::batter, fit.batter, date }));
        heads.push_back (fitJson (MeasuredHead{ HeadSide::resonant, fit.resonant, date }));
    }

    for (const auto& partial : fit.partials)
        partials.push_back (Json::Object{ { "frequency_hz", partial.frequency },
                                          { "m", partial.mode.m },
                                          { "n", partial.mode.n },
                                          { "cents_over_fit", partial.cents },
                                          { "batter_share", partial.mode.shares.batter },
                                          { "resonant_share", partial.mode.shares.resonant } });

    return Json::Object{ { "is_possible", fit.isPossible },
                         { "heads", heads },
                         { "partials", partials },
                         { "misfit_standard_deviations", fit.misfit },
                         { "strikes_used", fit.strikesUsed },
                         { "doubts", listOf (fit.doubts) } };
}

std::vector<MeasuredHead> readFit (std::string_view document, const std::string& source)
{
    const auto json = Json::parse (document, source);

    if (json.find ("heads") == nullptr)
        return { readHead (json, source) };

    std::vector<MeasuredHead> heads;

    for (const auto& head : Reader (json, source).list ("heads"))
        heads.push_back (readHead (head, source));

    return heads;
}

} // namespace sheets
