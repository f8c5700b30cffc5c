#include "FitJson.h"

#include "Files/HeadText.h"
#include "Modal/InputError.h"
#include "Wording/AnswerText.h"
#include "Wording/FitText.h"

namespace reports
{

using namespace fitting;
using namespace modal;
using files::Json;

namespace
{

Json estimateJson (const Estimate& estimate)
{
    return Json{ { "value", estimate.value }, { "error", estimate.error } };
}

std::string nameOf (HeadSide side)
{
    return side == HeadSide::batter ? "batter" : "resonant";
}

Json findingsJson (const std::vector<Finding>& findings)
{
    Json list = Json::array();

    for (const auto& finding : findings)
    {
        Json object{ { "kind", std::string (nameOf (finding.kind)) },
                     { "severity", std::string (nameOf (finding.severity)) },
                     { "numbers", finding.numbers },
                     { "text", wording::text (finding) } };

        if (finding.head)
            object["head"] = nameOf (*finding.head);

        list.push_back (object);
    }

    return list;
}

/** Every tuning that explains the strikes, and the range of each head's tension over all of them. */
Json answersJson (const DrumFit& fit)
{
    Json tunings = Json::array(), ranges = Json::object();

    for (const auto& answer : fit.answers)
    {
        Json one{ { "probability", answer.probability }, { "diameter_m", answer.diameter } };

        for (const auto side : { HeadSide::batter, HeadSide::resonant })
            if (const auto& head = side == HeadSide::batter ? answer.batter : answer.resonant; head.tension.value > 0.0)
                one[nameOf (side)] = Json{ { "tension_n_per_m", estimateJson (head.tension) },
                                           { "tap_note_hz", estimateJson (head.tapNote) },
                                           { "head", files::headText (head.construction) } };

        tunings.push_back (one);
    }

    for (const auto side : { HeadSide::batter, HeadSide::resonant })
        if (! fit.answers.empty() &&
            (side == HeadSide::batter ? fit.answers[0].batter : fit.answers[0].resonant).tension.value > 0.0)
        {
            const auto [low, high] = tensionRange (fit.answers, side);
            ranges[nameOf (side)] = Json{ { "from", low }, { "to", high } };
        }

    return Json{ { "tunings", tunings }, { "tension_n_per_m_95_percent", ranges } };
}

Json verdictJson (const LugVerdict& verdict)
{
    Json lugs = Json::array();

    for (const int lug : verdict.lugs)
        lugs.emplace_back (lug + 1);

    return Json{ { "lugs", lugs },
                 { "correction_cents", verdict.correction },
                 { "text", wording::action (verdict) },
                 { "reason", wording::reason (verdict) } };
}

/** Reads members of one object; errors name the file and the key. */
class Reader
{
public:
    Reader (const Json& json, std::string where) : object (json), path (std::move (where)) {}

    const Json& at (const char* key) const
    {
        if (const auto member = object.find (key); member != object.end())
            return *member;

        throw InputError::fault (path + ": " + key, "is missing", "what \"snarewright fit --json\" writes");
    }

    double number (const char* key, const Range& range) const
    {
        const auto& value = required (key, &Json::is_number, "a number");
        return requireInRange (value.get<double>(), range, path + ": " + key);
    }

    Estimate estimate (const char* key, const Range& range) const
    {
        const Reader inner (at (key), path + ": " + key);
        return { inner.number ("value", range), inner.number ("error", { 0.0, 1.0e9, range.unit }) };
    }

    const Json& list (const char* key) const { return required (key, &Json::is_array, "a list"); }
    bool boolean (const char* key) const { return required (key, &Json::is_boolean, "true or false").get<bool>(); }
    std::string text (const char* key) const { return required (key, &Json::is_string, "text").get<std::string>(); }

private:
    const Json& required (const char* key, bool (Json::*isKind)() const noexcept, const char* kind) const
    {
        const auto& value = at (key);

        if (! (value.*isKind)())
            throw InputError (path + ": " + key, files::described (value), kind);

        return value;
    }

    const Json& object;
    std::string path;
};

HeadSide sideNamed (const std::string& name, const std::string& field)
{
    if (name != "batter" && name != "resonant")
        throw InputError (field, '"' + name + '"', "batter or resonant");

    return name == "batter" ? HeadSide::batter : HeadSide::resonant;
}

/** Findings that "fit" wrote; a kind that this program does not know is left out, none if the file is older than findings. */
std::vector<Finding> readFindings (const Json& json, const Reader& reader, const std::string& source)
{
    std::vector<Finding> findings;

    if (! json.contains ("findings"))
        return findings;

    for (const auto& item : reader.list ("findings"))
    {
        const Reader one (item, source + ": findings");
        const auto kind = findingNamed (one.text ("kind"));
        const auto severity = severityNamed (one.text ("severity"));

        if (! kind || ! severity)
            continue;

        Finding finding{ .kind = *kind, .severity = *severity };

        for (const auto& number : one.list ("numbers"))
            if (number.is_number())
                finding.numbers.push_back (number.get<double>());

        if (finding.numbers.size() != numberCount (*kind))
            throw InputError (source + ": findings: numbers", std::to_string (finding.numbers.size()) + " numbers",
                              std::to_string (numberCount (*kind)) + " for \"" + std::string (nameOf (*kind)) + '"');

        if (item.contains ("head"))
            finding.head = sideNamed (one.text ("head"), source + ": findings: head");

        findings.push_back (std::move (finding));
    }

    return findings;
}

MeasuredHead readHead (const Json& json, const std::string& source)
{
    const Reader reader (json, source);
    MeasuredHead head{ sideNamed (reader.text ("head"), source + ": head"), {}, {} };

    if (json.contains ("date"))
        head.date = reader.text ("date");

    auto& fit = head.fit;
    fit.isPossible = reader.boolean ("is_possible");
    fit.findings = readFindings (json, reader, source);
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

    if (json.contains ("suspects"))
        for (const auto& suspect : reader.list ("suspects"))
        {
            const Reader one (suspect, source + ": suspects");
            fit.suspects.push_back ({ static_cast<int> (one.number ("lug", { 1.0, 64.0, "" })) - 1,
                                      one.estimate ("cents", { -1200.0, 1200.0, "cents" }),
                                      one.number ("probability", { 0.0, 1.0, "" }) });
        }

    if (json.contains ("unevenness_standard_deviations"))
        fit.unevenness = reader.number ("unevenness_standard_deviations", { 0.0, 1.0e9, "" });

    if (json.contains ("lug_waves"))
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
    Json object{ { "head", nameOf (head.side) }, { "date", head.date }, { "is_possible", fit.isPossible } };

    if (fit.isPossible)
    {
        Json lugs = Json::array();

        for (const auto& lug : fit.lugCents)
            lugs.push_back (estimateJson (lug));

        object["tap_note_hz"] = estimateJson (fit.tapNote);
        object["tension_n_per_m"] = estimateJson (fit.tension);
        object["mass_ratio"] = estimateJson (fit.massRatio);
        object["loss_ratio"] = estimateJson (fit.lossRatio);
        object["lugs_cents"] = lugs;

        Json waves = Json::array();

        for (const auto& wave : fit.lugWaves)
            waves.push_back (Json{ { "times_round", wave.waves }, { "cents", estimateJson (wave.cents) } });

        object["lug_waves"] = waves;
    }

    Json suspects = Json::array();

    for (const auto& suspect : fit.suspects)
        suspects.push_back (Json{
            { "lug", suspect.lug + 1 }, { "cents", estimateJson (suspect.cents) }, { "probability", suspect.probability } });

    object["suspects"] = suspects;
    object["unevenness_standard_deviations"] = fit.unevenness;
    object["misfit_standard_deviations"] = fit.misfit;
    object["taps_used"] = fit.tapsUsed;
    object["lugs_to_turn"] = verdictJson (fit.verdict());
    object["findings"] = findingsJson (fit.findings);
    return object;
}

Json fitJson (const MeasuredHead& head, const DrumSpec& drum)
{
    auto object = fitJson (head);
    object["answer"] = wording::answer (head.fit, head.side, drum);
    return object;
}

Json fitJson (const DrumFit& fit, const std::string& date, ConcertPitch pitch)
{
    Json heads = Json::array(), partials = Json::array();

    if (fit.isPossible)
    {
        heads.push_back (fitJson (MeasuredHead{ HeadSide::batter, fit.batter, date }));
        heads.push_back (fitJson (MeasuredHead{ HeadSide::resonant, fit.resonant, date }));
    }

    for (const auto& partial : fit.partials)
        partials.push_back (Json{ { "frequency_hz", partial.frequency },
                                  { "m", partial.mode.m },
                                  { "n", partial.mode.n },
                                  { "cents_over_fit", partial.cents },
                                  { "batter_share", partial.mode.shares.batter },
                                  { "resonant_share", partial.mode.shares.resonant } });

    return Json{ { "is_possible", fit.isPossible },
                 { "answer", wording::answer (fit, pitch) },
                 { "heads", heads },
                 { "answers", answersJson (fit) },
                 { "partials", partials },
                 { "misfit_standard_deviations", fit.misfit },
                 { "strikes_used", fit.strikesUsed },
                 { "findings", findingsJson (fit.findings) } };
}

std::vector<MeasuredHead> readFit (std::string_view document, const std::string& source)
{
    const auto json = files::parseJson (document, source);

    if (! json.contains ("heads"))
        return { readHead (json, source) };

    std::vector<MeasuredHead> heads;

    for (const auto& head : Reader (json, source).list ("heads"))
        heads.push_back (readHead (head, source));

    return heads;
}

} // namespace reports
