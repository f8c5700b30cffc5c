#include "PlanReader.h"

#include "Files/ObjectReader.h"
#include "Files/TuningRequest.h"
#include "Fitting/Drum.h"
#include "Modal/InputError.h"

#include <algorithm>

namespace web
{

using namespace fitting;
using namespace modal;
using files::Json;

namespace
{
const Range anyCents{ -300.0, 300.0, "cents" };

const Json* valueIn (const Json& object, const char* key)
{
    const auto found = object.is_object() ? object.find (key) : object.end();
    return object.is_object() && found != object.end() && ! found->is_null() ? &*found : nullptr;
}

/** "F3 +12", or Hz as a number. */
double noteIn (const Json& value, ConcertPitch pitch, const std::string& field)
{
    if (value.is_number())
        return requireInRange (value.get<double>(), { 10.0, 5000.0, "Hz" }, field);

    if (! value.is_string())
        throw InputError (field, files::described (value), "a note such as \"F3 +12\", or Hz");

    return files::readNote (value.get<std::string>(), pitch, field);
}

double numberIn (const Json& value, const Range& range, const std::string& field)
{
    if (! value.is_number())
        throw InputError (field, files::described (value), "a number");

    return requireInRange (value.get<double>(), range, field);
}

const Json& listIn (const Json& value, const std::string& field)
{
    if (! value.is_array())
        throw InputError (field, files::described (value), "a list");

    return value;
}

HeadSide sideIn (const Json* value, const std::string& field)
{
    if (value == nullptr || (*value != "batter" && *value != "resonant"))
        throw InputError (field, value == nullptr ? "a missing value" : files::described (*value), "\"batter\" or \"resonant\"");

    return *value == "batter" ? HeadSide::batter : HeadSide::resonant;
}

std::vector<RodObservation> observationsIn (const Json& request, const char* key, ConcertPitch pitch)
{
    std::vector<RodObservation> observations;
    const auto* list = valueIn (request, key);

    if (list == nullptr)
        return observations;

    for (const auto& item : listIn (*list, key))
    {
        const auto required = [&] (const char* name) -> const Json&
        {
            if (const auto* value = valueIn (item, name))
                return *value;

            throw InputError::fault (std::string (key) + ": " + name, "is missing", "head, turns, before and after");
        };
        RodObservation seen;
        seen.side = sideIn (valueIn (item, "head"), std::string (key) + ": head");
        seen.turns = numberIn (required ("turns"), turnedRange, std::string (key) + ": turns");
        seen.fromNote = noteIn (required ("before"), pitch, std::string (key) + ": before");
        seen.toNote = noteIn (required ("after"), pitch, std::string (key) + ": after");
        observations.push_back (seen);
    }

    return observations;
}

/** How one head is now: by its measurement, by what the last turn left, or by the note that is given, which may not contradict
 * the turn. */
std::optional<HeadAsIs> headNow (const Json& request, const DrumSpec& drum, HeadSide side, ConcertPitch pitch,
                                 const std::vector<reports::MeasuredHead>& measured, const std::vector<RodObservation>& observed)
{
    const char* name = side == HeadSide::batter ? "batter" : "resonant";
    const auto isIt = [side] (const auto& one) { return one.side == side; };
    const auto fit = std::find_if (measured.begin(), measured.end(), isIt);
    const auto seen = std::find_if (observed.rbegin(), observed.rend(), isIt);
    const auto* notes = valueIn (request, "now");
    const auto* note = notes == nullptr ? nullptr : valueIn (*notes, name);

    if (fit == measured.end() && seen == observed.rend() && note == nullptr)
        return std::nullopt;

    HeadAsIs head;

    if (fit != measured.end())
        head = headAsIs (fit->fit);

    if (note != nullptr)
    {
        const auto field = std::string ("now: ") + name;
        const double now = noteIn (*note, pitch, field);

        if (seen != observed.rend())
            requireAgreement (now, *seen, pitch, field, "");

        head.tension = tensionForTapNote (drum, side, now);
    }
    else if (seen != observed.rend())
        head.tension = tensionForTapNote (drum, side, seen->toNote);

    if (const auto* lugs = valueIn (request, "now_lugs_cents"))
        if (const auto* cents = valueIn (*lugs, name))
        {
            const auto field = std::string ("now_lugs_cents: ") + name;
            head.lugCents.clear();
            head.lugErrors.clear();

            for (const auto& value : listIn (*cents, field))
                head.lugCents.push_back (numberIn (value, anyCents, field));
        }

    return head;
}
} // namespace

bool saysHowItIs (const Json& request)
{
    return valueIn (request, "now") != nullptr || valueIn (request, "measured") != nullptr ||
           valueIn (request, "observed") != nullptr;
}

std::vector<reports::MeasuredHead> measuredHeads (const Json& request)
{
    std::vector<reports::MeasuredHead> heads;

    if (const auto* list = valueIn (request, "measured"))
        for (const auto& fit : listIn (*list, "measured"))
            for (auto& head : reports::readFit (fit.dump(), "measured"))
                if (head.fit.isPossible)
                    heads.push_back (std::move (head));

    return heads;
}

PlanRequest readPlan (const Json& request, const DrumSpec& drum, const Tuning& wanted)
{
    PlanRequest plan;
    plan.drum = drum;
    plan.wanted = wanted;

    const auto measured = measuredHeads (request);
    const auto observed = observationsIn (request, "observed", wanted.concertPitch);
    plan.observations = observationsIn (request, "calibration", wanted.concertPitch);
    plan.observations.insert (plan.observations.end(), observed.begin(), observed.end());
    plan.batter = headNow (request, drum, HeadSide::batter, wanted.concertPitch, measured, observed);

    if (drum.hasResonantHead())
        plan.resonant = headNow (request, drum, HeadSide::resonant, wanted.concertPitch, measured, observed);

    if (const auto* thread = valueIn (request, "thread"))
        plan.thread = RodThread::parse (thread->is_string() ? thread->get<std::string>() : files::described (*thread), "thread");
    if (const auto* step = valueIn (request, "step_turns"))
        plan.largestStep = numberIn (*step, { 1.0 / 32.0, 1.0, "turns" }, "step_turns");
    if (const auto* below = valueIn (request, "below_turns"))
        plan.belowTarget = numberIn (*below, { 0.0, 1.0, "turns" }, "below_turns");

    return plan;
}

} // namespace web
