#include "BenchOptions.h"

#include "Files/NumberText.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"

#include <cmath>
#include <sstream>

namespace tool
{

using namespace modal;

namespace
{
std::vector<std::string> splitAt (const std::string& text, char separator)
{
    std::vector<std::string> parts;
    std::istringstream stream (text);

    for (std::string part; std::getline (stream, part, separator);)
    {
        const auto first = part.find_first_not_of (' '), last = part.find_last_not_of (' ');
        parts.push_back (first == std::string::npos ? "" : part.substr (first, last - first + 1));
    }

    return parts;
}

double readNumber (const std::string& text, const std::string& field, const char* allowed)
{
    std::string_view rest = text;
    const auto number = files::takeNumber (rest);

    if (! number || ! rest.empty() || ! std::isfinite (*number))
        throw InputError (field, '"' + text + '"', allowed);

    return *number;
}

std::vector<double> readCents (const std::string& text, const std::string& field)
{
    std::vector<double> cents;

    for (const auto& part : splitAt (text, ','))
        cents.push_back (requireInRange (readNumber (part, field, "cents with commas between, such as \"0,-5,12\""),
                                         { -300.0, 300.0, "cents" }, field));

    return cents;
}

/** "batter 1/4 F3 G3": which head, turns of every rod, the note before and after. */
RodObservation readObservation (const std::string& text, ConcertPitch pitch, const std::string& field)
{
    std::vector<std::string> words;

    for (auto& word : splitAt (text, ' '))
        if (! word.empty())
            words.push_back (word);

    if (words.size() != 4 || (words[0] != "batter" && words[0] != "resonant"))
        throw InputError (field, '"' + text + '"', "head, turns of every rod, note before and after: \"batter 1/4 F3 G3\"");

    RodObservation seen;
    seen.side = words[0] == "batter" ? HeadSide::batter : HeadSide::resonant;
    seen.turns = readTurns (words[1], field);
    seen.fromNote = files::readNote (words[2], pitch, field);
    seen.toNote = files::readNote (words[3], pitch, field);
    return seen;
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

std::vector<double> readNotes (const std::string& text, ConcertPitch pitch, const std::string& field)
{
    std::vector<double> notes;

    for (const auto& part : splitAt (text, ','))
        notes.push_back (files::readNote (part, pitch, field));

    return notes;
}

OptionGroup planOptions()
{
    return {
        "The drum as it is, and its rods:",
        { { "now-batter", "F3", "the batter head's tap note now" },
          { "now-resonant", "C4", "the resonant head's" },
          { "now-batter-lugs", "0,-5,12,...", "cents of each lug over the head's note now, lug 1 first" },
          { "now-resonant-lugs", "0,-5,12,...", "" },
          { "thread", "12-24 UNC", "of the tension rods; or 10-32, M6x1 ..." },
          { "step", "1/4", "the most that a rod turns in one pass, 1/32 to 1 turn" },
          { "below", "1/8", "how far a head that comes down goes below its target first, in turns" },
          { "observed", "\"batter 1/4 F3 G3\"",
            "what every rod's turn did to this drum before: head, turns, note before, note\nafter; more than one with commas "
            "between" } }
    };
}

bool hasPlan (const Arguments& arguments)
{
    return arguments.has ("now-batter") || arguments.has ("now-resonant");
}

PlanRequest readPlanRequest (const Arguments& arguments, const DrumSpec& drum, const Tuning& wanted)
{
    PlanRequest request;
    request.drum = drum;
    request.wanted = wanted;

    const auto readHead = [&] (const char* name, HeadSide side, HeadAsIs& head)
    {
        const auto option = std::string ("now-") + name;
        const auto note = arguments.value (option);

        if (! note)
            throw InputError ("--" + option, "a missing value", "the head's tap note now, such as F3");

        head.tension = tensionForTapNote (drum, side, files::readNote (*note, wanted.concertPitch, "--" + option));

        if (const auto cents = arguments.value (option + "-lugs"))
            head.lugCents = readCents (*cents, "--" + option + "-lugs");
    };

    readHead ("batter", HeadSide::batter, request.batter);

    if (drum.hasResonantHead())
        readHead ("resonant", HeadSide::resonant, request.resonant);

    if (const auto thread = arguments.value ("thread"))
        request.thread = RodThread::parse (*thread, "--thread");

    if (const auto step = arguments.value ("step"))
        request.largestStep = readTurns (*step, "--step");

    if (const auto below = arguments.value ("below"))
        request.belowTarget = readTurns (*below, "--below");

    if (const auto observed = arguments.value ("observed"))
        for (const auto& part : splitAt (*observed, ','))
            request.observations.push_back (readObservation (part, wanted.concertPitch, "--observed"));

    return request;
}

} // namespace tool
