#include "PlanOptions.h"

#include "OptionText.h"

#include "Files/TextFile.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Wording/FitText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace fitting;
using namespace modal;

namespace
{
double readNumber (const std::string& text, const std::string& field, const char* allowed)
{
    std::string_view rest = text;
    const auto number = modal::takeNumber (rest);

    if (! number || ! rest.empty() || ! std::isfinite (*number))
        throw InputError (field, '"' + text + '"', allowed);

    return *number;
}

std::vector<double> readCents (const std::string& text, const std::string& field)
{
    std::vector<double> cents;

    for (const auto& part : splitAt (text, ','))
        cents.push_back (
            requireInRange (readNumber (part, field, "cents with commas between, such as \"0,-5,12\""), lugCentsRange, field));

    return cents;
}

} // namespace

double readTurns (const std::string& text, const std::string& field)
{
    constexpr auto allowed = "turns as a fraction or a number: 1/4 or 0.25";
    const auto slash = text.find ('/');

    if (slash == std::string::npos)
        return readNumber (text, field, allowed);

    const double over = readNumber (text.substr (slash + 1), field, allowed);

    if (over <= 0.0)
        throw InputError (field, '"' + text + '"', allowed);

    return readNumber (text.substr (0, slash), field, allowed) / over;
}

namespace
{
/** "batter 1/4 F3 G3": which head, turns of every rod, the note before and after. */
RodObservation readObservation (const std::string& text, ConcertPitch pitch, const std::string& field)
{
    std::vector<std::string> words;

    for (auto& word : splitAt (text, ' '))
        if (! word.empty())
            words.push_back (word);

    // "F3 -20" is one note.
    for (std::size_t i = 3; i < words.size();)
        if (words[i].front() == '+' || words[i].front() == '-')
        {
            words[i - 1] += ' ' + words[i];
            words.erase (words.begin() + static_cast<std::ptrdiff_t> (i));
        }
        else
        {
            ++i;
        }

    if (words.size() != 4 || (words[0] != "batter" && words[0] != "resonant"))
        throw InputError (field, '"' + text + '"', "head, turns of every rod, note before and after: \"batter 1/4 F3 G3\"");

    RodObservation seen;
    seen.side = words[0] == "batter" ? HeadSide::batter : HeadSide::resonant;
    seen.turns = readTurns (words[1], field);
    seen.fromNote = files::readNote (words[2], pitch, field);
    seen.toNote = files::readNote (words[3], pitch, field);
    return seen;
}

/** Several with commas between. */
std::vector<RodObservation> readObservations (const Arguments& arguments, const char* option, ConcertPitch pitch)
{
    std::vector<RodObservation> observations;

    if (const auto text = arguments.value (option))
        for (const auto& part : splitAt (*text, ','))
            observations.push_back (readObservation (part, pitch, "--" + std::string (option)));

    return observations;
}
} // namespace

std::vector<reports::MeasuredHead> measuredHeads (const std::string& paths, const std::string& field, const DrumSpec& drum)
{
    std::vector<reports::MeasuredHead> heads;

    for (const auto& path : splitAt (paths, ','))
    {
        auto found = reports::readFit (files::loadText (path), path);
        const auto why = found.empty() ? std::string() : wording::mostSevereText (found.front().fit.findings);

        // Strikes may measure only one head.
        std::erase_if (found, [] (const auto& head) { return ! head.fit.isPossible; });

        if (found.empty())
            throw InputError::fault (field + ", " + path, "is a fit without a result", why.empty() ? "a fit with a result" : why);

        for (auto& head : found)
        {
            const auto lugs = head.fit.lugCents.size();

            if (lugs > 0 && lugs != static_cast<std::size_t> (drum.lugs))
                throw InputError (field + ", " + path, std::to_string (lugs) + " lugs",
                                  "a fit of this drum, which has " + std::to_string (drum.lugs));

            if (std::any_of (heads.begin(), heads.end(), [&] (const auto& other) { return other.side == head.side; }))
                throw InputError (field + ", " + path, "a head that was there before", "each head once");

            heads.push_back (std::move (head));
        }
    }

    if (heads.empty())
        throw InputError (field, '"' + paths + '"', "files of fits with a result");

    return heads;
}

OptionGroup planOptions()
{
    return {
        "The drum now, and its rods:",
        { { "now-batter", "F3", "the batter head's tap note now" },
          { "now-resonant", "C4", "the resonant head's; a head that is not given is not turned" },
          { "now-from", "FILE,FILE...", "or files that \"snarewright fit --json\" wrote, for one head or both" },
          { "now-batter-lugs",
            "0,-5,12,...",
            "cents of each lug from the head's tap note, lug 1 first",
            false,
            { "now-batter", "now-from", "observed" } },
          { "now-resonant-lugs", "0,-5,12,...", "the same for the resonant head", false, { "now-resonant", "now-from", "observed" } },
          { "thread", "12-24 UNC", "of the tension rods; or 10-32, M6x1 ..." },
          { "step", "1/4",
            "largest turn of a rod in one pass, 1/32 to 1 turn; turns are in sixteenths; if not given, a\nquarter "
            "to a half turn, so that three passes are enough" },
          { "below", "1/8",
            "turns below the target before coming up to pitch, for a rod that is let down;\nif not given, at most a semitone's "
            "worth" },
          { "observed", "\"batter 1/4 F3 G3\"",
            "what turning every rod just did: head, turns, tap note before, tap note after; several\nwith commas between; the "
            "plan goes on from the last" },
          { "calibration", "\"batter 1/4 F3 G3\"", "the same from another day: what a turn does to this drum" } }
    };
}

bool hasPlan (const Arguments& arguments)
{
    return arguments.has ("now-batter") || arguments.has ("now-resonant") || arguments.has ("now-from") ||
           arguments.has ("observed");
}

void readRods (const Arguments& arguments, const Tuning& wanted, PlanRequest& request)
{
    if (const auto thread = arguments.value ("thread"))
        request.thread = RodThread::parse (*thread, "--thread");

    request.observations = readObservations (arguments, "calibration", wanted.concertPitch);
}

PlanRequest readPlanRequest (const Arguments& arguments, const DrumSpec& drum, const Tuning& wanted)
{
    PlanRequest request;
    request.drum = drum;
    request.wanted = wanted;

    std::vector<reports::MeasuredHead> measured;

    if (const auto files = arguments.value ("now-from"))
        measured = measuredHeads (*files, "--now-from", drum);

    readRods (arguments, wanted, request);
    const auto observed = readObservations (arguments, "observed", wanted.concertPitch);
    request.observations.insert (request.observations.end(), observed.begin(), observed.end());

    const auto readHead = [&] (const char* name, HeadSide side) -> std::optional<HeadAsIs>
    {
        const auto option = std::string ("now-") + name;
        const auto note = arguments.value (option);
        const auto found = std::find_if (measured.begin(), measured.end(), [side] (const auto& one) { return one.side == side; });

        const auto seen =
            std::find_if (observed.rbegin(), observed.rend(), [side] (const auto& one) { return one.side == side; });

        if (! note && found == measured.end() && seen == observed.rend())
            return std::nullopt;

        HeadAsIs head;

        if (found != measured.end())
            head = headAsIs (found->fit);

        if (seen != observed.rend())
        {
            if (found != measured.end())
                requireAgreement (found->fit.tapNote.value, *seen, wanted.concertPitch, "--now-from", "--");
            else
                head.tension = tensionForTapNote (drum, side, seen->toNote);
        }

        if (note)
        {
            const double now = files::readNote (*note, wanted.concertPitch, "--" + option);

            if (seen != observed.rend())
                requireAgreement (now, *seen, wanted.concertPitch, "--" + option, "--");

            head.tension = tensionForTapNote (drum, side, now);
        }

        if (const auto cents = arguments.value (option + "-lugs"))
        {
            head.lugCents = readCents (*cents, "--" + option + "-lugs");
            requireOnePerLug (head.lugCents.size(), drum.lugs, "--" + option + "-lugs");
            head.lugErrors.clear();
        }

        return head;
    };

    request.batter = readHead ("batter", HeadSide::batter);

    if (drum.hasResonantHead())
        request.resonant = readHead ("resonant", HeadSide::resonant);

    if (! request.batter && ! request.resonant)
        throw InputError::fault (
            "--now-batter", "is missing",
            "the batter head's tap note now, such as F3, or --now-resonant, or a fit's file with --now-from");

    if (const auto step = arguments.value ("step"))
        request.largestStep = requireInRange (readTurns (*step, "--step"), largestStepRange, "--step");

    if (const auto below = arguments.value ("below"))
        request.belowTarget = requireInRange (readTurns (*below, "--below"), belowTargetRange, "--below");

    return request;
}

} // namespace tool
