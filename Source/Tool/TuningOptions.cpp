#include "TuningOptions.h"

#include "IntervalLimits.h"
#include "OptionText.h"

#include "Files/TuningRequest.h"
#include "Modal/InputError.h"

namespace tool
{

using namespace modal;
using namespace files;

namespace
{
TuningRequest readTuningOptions (const Arguments& arguments, const DrumSpec& drum, ConcertPitch pitch)
{
    TuningRequest request;

    const auto note = [&] (const char* option, std::optional<double>& target)
    {
        if (const auto text = arguments.value (option))
            target = readNote (*text, pitch, std::string ("--") + option);
    };
    const auto tension = [&] (const char* option, const HeadConstruction& head, std::optional<double>& target)
    {
        if (const auto text = arguments.value (option))
            target = readQuantity (*text, Quantity::tension, tensionLimits (head), std::string ("--") + option);
    };

    note ("batter-note", request.batterNote);
    note ("resonant-note", request.resonantNote);
    note ("drum-note", request.drumNote);
    tension ("batter-tension", drum.batter, request.batterTension);
    tension ("resonant-tension", drum.resonant, request.resonantTension);

    if (const auto text = arguments.value ("interval"))
        request.interval = Interval::parse (*text, "--interval");

    return request;
}

/** "0,0,-30,0,0,0,0,0": cents by lug. */
void overrideLugs (const Arguments& arguments, const char* option, int lugsOfDrum, std::vector<double>& lugs)
{
    const auto text = arguments.value (option);

    if (! text)
        return;

    lugs.clear();

    for (const auto& part : splitAt (*text, ','))
        lugs.push_back (readQuantity (part, Quantity::cents, limitsOf (lugCentsRange),
                                      "--" + std::string (option) + ", lug " + std::to_string (lugs.size() + 1)));

    requireOnePerLug (lugs.size(), lugsOfDrum, "--" + std::string (option));
}

/** The tuning that is requested, changed by what is asked, with the lugs and concert pitch of another. */
Tuning assembled (TuningRequest request, const TuningRequest& asked, const DrumSpec& drum, const Tuning& other)
{
    request.overrideWith (asked);

    if (request.isEmpty())
        throw InputError::fault (
            "tuning", "is missing",
            drum.hasResonantHead()
                ? "--batter-note with --interval or --resonant-note; --drum-note with --interval, "
                  "--batter-note or --resonant-note; --batter-tension with --resonant-tension; or a drum that has tunings"
                : "--batter-note, --drum-note or --batter-tension; or a drum that has tunings");

    auto tuning = assemble (request, drum, "tuning");
    tuning.concertPitch = other.concertPitch;
    tuning.lugs = other.lugs;
    return tuning;
}
} // namespace

const OptionGroup& tuningOptions()
{
    static const OptionGroup group{
        "The tuning (both heads by note or by tension, or the drum note with the interval):",
        { { "tuning", "NAME|NUMBER", "a tuning of the drum file; the first if not given" },
          { "batter-note", "G#3",
            "batter tap note: 25 mm from the edge, other head held still;\n\"G#3 +12\" with cents, or a frequency: 207.65Hz" },
          { "resonant-note", "C#4", "resonant tap note" },
          { "interval", "P4",
            "resonant tap note over batter tap note: P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8,\nspelled out (\"perfect fourth\"), "
            "or \"+5.5 st\"" },
          { "interval-limits", "P1:P5", "refuse a tuning whose interval lies outside" },
          { "drum-note", "F3",
            "note of the finished drum: its lowest mode in which the heads move; with --interval, or\nwith --batter-note or "
            "--resonant-note for a head that stays: the other is solved for" },
          { "batter-tension", "4500", "batter tension, N/m" },
          { "resonant-tension", "3600", "resonant tension, N/m" },
          { "batter-lugs", "0,0,-30,0,...",
            "uneven lugs: cents of a tap beside each lug from the tap note, clockwise from lug 1;\none number per lug, " +
                limitsText (Dimension::cents, limitsOf (lugCentsRange)) },
          { "resonant-lugs", "0,0,...", "" },
          { "concert-pitch", "440", "A4, " + limitsText (&ConcertPitch::a4) + "; note names follow it, in files too" } }
    };
    return group;
}

std::optional<ConcertPitch> concertPitchAsked (const Arguments& arguments)
{
    // Concert pitch is commonly given without its unit.
    static const Quantity pitch{ "concert pitch", { { "hz", "Hz", 1.0 } }, true };
    const auto text = arguments.value ("concert-pitch");
    return text ? std::optional (
                      ConcertPitch{ readQuantity (*text, pitch, limitsOf (numberOf (&ConcertPitch::a4)), "--concert-pitch") })
                : std::nullopt;
}

void overrideTuning (const Arguments& arguments, const DrumSpec& drum, Tuning& tuning, bool isComplete)
{
    tuning.concertPitch = concertPitchAsked (arguments).value_or (tuning.concertPitch);
    overrideLugs (arguments, "batter-lugs", drum.lugs, tuning.lugs.batter);
    overrideLugs (arguments, "resonant-lugs", drum.lugs, tuning.lugs.resonant);

    const auto asked = readTuningOptions (arguments, drum, tuning.concertPitch);

    if (! isComplete || ! asked.isEmpty())
        tuning = assembled (isComplete ? TuningRequest::from (tuning) : TuningRequest(), asked, drum, tuning);

    checkInterval (arguments, drum, tuning);
}

} // namespace tool
