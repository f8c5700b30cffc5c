#include "DrumOptions.h"

#include "FittingOptions.h"
#include "OptionText.h"

#include "Files/DrumWords.h"
#include "Files/Fields.h"
#include "Files/HeadText.h"
#include "Files/NearestWord.h"
#include "Files/Presets.h"
#include "Files/TextFile.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Sheets/Canvas.h"

#include <algorithm>

namespace tool
{

using namespace modal;
using namespace files;

namespace
{
bool isDrum (const std::string& presetOrPath)
{
    std::error_code error;

    if (findDrumPreset (presetOrPath) != nullptr)
        return true;

    if (! std::filesystem::is_regular_file (presetOrPath, error))
        return false;

    const auto size = std::filesystem::file_size (presetOrPath, error);
    return ! error && size > 0 && size <= largestTextFile && loadText (presetOrPath).find (drumFormat) != std::string::npos;
}

/** Pipes and devices may have any name. */
bool isDevice (const std::string& path)
{
    std::error_code error;
    const auto status = std::filesystem::status (path, error);
    return std::filesystem::exists (status) && ! std::filesystem::is_regular_file (status) &&
           ! std::filesystem::is_directory (status);
}

std::vector<std::string> splitAtCommas (const std::string& text)
{
    std::vector<std::string> parts (1);

    for (const char c : text)
    {
        if (c == ',')
            parts.emplace_back();
        else
            parts.back() += c;
    }

    return parts;
}

/** "25C,40%,1013hPa" in any order, each at most once, or "none". */
Air readAir (const std::string& text)
{
    if (text == noneWord)
        return Air::vacuum();

    Weather weather;

    for (const auto& part : splitAtCommas (text))
    {
        const auto& fields = numbersOf<Weather>;
        const auto field =
            std::find_if (fields.begin(), fields.end(),
                          [&] (const auto& f) { return takeQuantity (part, quantityOf (f.dimension)).has_value(); });

        std::string_view rest = part;
        const auto number = takeNumber (rest);

        // A bare number above 1 may be a temperature or a humidity in percent.
        if (number && rest.empty() && *number > 1.0)
            throw InputError::fault ("--air", "says \"" + part + "\" without a unit", part + "C or " + part + "%");

        if (field == fields.end())
            throw InputError ("--air", '"' + part + '"',
                              "none, or temperature, humidity and pressure with their units: 25C,40%,1013hPa");

        weather.*field->member = readQuantity (part, field->member, std::string ("--air, ") + field->name);
    }

    return Air::from (weather);
}

void overrideHead (const Arguments& arguments, const std::string& side, HeadConstruction& head)
{
    if (const auto text = arguments.value (side))
        head = readHeadText (*text, "--" + side);

    overrideNumber (arguments, side + "-coating", &HeadConstruction::coatingDensity, head);

    const auto overridePart = [&] (const char* part, const char* extent, double HeadConstruction::*extentMember,
                                   double HeadConstruction::*thicknessMember)
    {
        const auto option = "--" + side + "-" + part;
        const auto text = arguments.value (side + "-" + part);

        if (! text)
            return;

        const auto colon = text->find (':');

        if (colon == std::string::npos)
            throw InputError (option, '"' + *text + '"', std::string (extent) + " and thickness with a colon between: 80mm:7mil");

        head.*extentMember = readQuantity (text->substr (0, colon), extentMember, option + ", " + extent);
        head.*thicknessMember = readQuantity (text->substr (colon + 1), thicknessMember, option + ", thickness");
    };

    overridePart ("dot", "diameter", &HeadConstruction::dotDiameter, &HeadConstruction::dotThickness);
    overridePart ("ring", "width", &HeadConstruction::ringWidth, &HeadConstruction::ringThickness);
}

/** "30mm:3g:120mm": a patch's diameter, mass and distance from the centre of the batter head. */
void addPatch (const Arguments& arguments, Muffling& muffling)
{
    const auto text = arguments.value ("patch");

    if (! text)
        return;

    const auto first = text->find (':'), second = text->find (':', first + 1);

    if (first == std::string::npos || second == std::string::npos)
        throw InputError ("--patch", '"' + *text + '"', "diameter, mass and distance with colons between: 30mm:3g:120mm");

    MufflingItem patch;
    patch.size = readQuantity (text->substr (0, first), &MufflingItem::size, "--patch, size");
    patch.mass = readQuantity (text->substr (first + 1, second - first - 1), &MufflingItem::mass, "--patch, mass");
    patch.distance = readQuantity (text->substr (second + 1), &MufflingItem::distance, "--patch, distance");
    muffling.push_back (patch);
}

/** Refuses options of the resonant head for a drum that has none. */
void refuseWithoutResonantHead (const Arguments& arguments)
{
    for (const auto* option : { "resonant", "resonant-coating", "resonant-dot", "resonant-ring", "resonant-note",
                                "resonant-tension", "resonant-lugs", "interval", "interval-limits" })
        if (arguments.has (option))
            throw InputError::fault (std::string ("--") + option, "cannot apply to a drum without a resonant head",
                                     "--bottom head, or the option left out");
}

void overrideDrum (const Arguments& arguments, DrumSpec& drum)
{
    // The name in the file often states the size, so it is dropped with another size.
    if (arguments.has ("diameter") || arguments.has ("depth"))
        drum.name.clear();

    overrideNumber (arguments, "diameter", &DrumSpec::diameter, drum);
    overrideNumber (arguments, "depth", &DrumSpec::depth, drum);

    if (const auto lugs = arguments.value ("lugs"))
        drum.lugs = readCount (*lugs, lugCount, "--lugs");

    overrideHead (arguments, "batter", drum.batter);
    overrideHead (arguments, "resonant", drum.resonant);
    overrideChoice (arguments, "bottom", bottomWords, drum.bottom);
    overrideChoice (arguments, "surround", surroundWords, drum.surround);

    if (arguments.value ("vent") == noneWord)
        drum.vent.diameter = 0.0;
    else
        overrideNumber (arguments, "vent", &Vent::diameter, drum.vent);

    if (const auto material = arguments.value ("shell"))
        drum.shell.material = *material;

    overrideNumber (arguments, "shell-thickness", &Shell::thickness, drum.shell);

    addPatch (arguments, drum.muffling);

    if (const auto air = arguments.value ("air"))
        drum.air = readAir (*air);

    if (! drum.hasResonantHead())
        refuseWithoutResonantHead (arguments);

    check (drum);
}

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
void overrideLugs (const Arguments& arguments, const char* option, std::vector<double>& lugs)
{
    const auto text = arguments.value (option);

    if (! text)
        return;

    lugs.clear();

    for (const auto& part : splitAtCommas (*text))
        lugs.push_back (readQuantity (part, Quantity::cents, limitsOf (lugCentsRange),
                                      "--" + std::string (option) + ", lug " + std::to_string (lugs.size() + 1)));
}

/** The tuning of that name, or of that number counted from 1. */
const Tuning& findTuning (const std::vector<Tuning>& tunings, const std::string& wanted)
{
    std::vector<std::string> names;

    for (const auto& tuning : tunings)
    {
        if (tuning.name == wanted || std::to_string (names.size() + 1) == wanted)
            return tuning;

        names.push_back (tuning.name.empty() ? std::to_string (names.size() + 1) : '"' + tuning.name + '"');
    }

    throw InputError ("--tuning", '"' + wanted + '"', names.empty() ? "nothing: the drum has no tunings" : listed (names));
}

/** "P1:P5": the least and the greatest interval. */
std::optional<std::pair<Interval, Interval>> intervalLimits (const Arguments& arguments)
{
    const auto text = arguments.value ("interval-limits");

    if (! text)
        return std::nullopt;

    const auto colon = text->find (':');

    if (colon == std::string::npos)
        throw InputError ("--interval-limits", '"' + *text + '"', "two intervals with a colon between: P1:P5");

    const auto least = Interval::parse (text->substr (0, colon), "--interval-limits"),
               greatest = Interval::parse (text->substr (colon + 1), "--interval-limits");

    if (least.semitones > greatest.semitones)
        throw InputError ("--interval-limits", '"' + *text + '"', "the smaller interval first");

    return std::pair{ least, greatest };
}

/** The drum notes that a held head leaves within two intervals: "D3 -4 to F3 +20", or "none" if the other head cannot have them. */
std::string drumNotesWithin (const TunedDrum& tuned, const ByDrumNoteAndHead& target, const Interval& least, const Interval& greatest)
{
    const bool holdsBatter = target.held == HeadSide::batter;
    const auto range = tapNoteRange (tuned.drum, holdsBatter ? HeadSide::resonant : HeadSide::batter);
    const auto freeNote = [&] (const Interval& interval)
    { return holdsBatter ? target.heldNote * interval.ratio() : target.heldNote / interval.ratio(); };
    const auto [low, high] = std::minmax ({ freeNote (least), freeNote (greatest) });

    if (high < range.lowest || low > range.highest)
        return "none";

    const auto drumNoteAt = [&] (double note)
    {
        const double inRange = std::clamp (note, range.lowest, range.highest);
        const ByTapNotes notes{ holdsBatter ? target.heldNote : inRange, holdsBatter ? inRange : target.heldNote };
        return Note::fromFrequency (drumNote (solve (tuned.drum, tensionsFor (tuned.drum, { "", notes, {}, {} }))),
                                    tuned.tuning.concertPitch)
            .nameWithCents();
    };
    return drumNoteAt (low) + " to " + drumNoteAt (high);
}

/** Refuses a tuning whose heads stand further apart, or closer, than asked. */
void checkInterval (const TunedDrum& tuned, const Arguments& arguments)
{
    const auto limits = intervalLimits (arguments);

    if (! limits)
        return;

    const auto& [least, greatest] = *limits;
    const auto tensions = tensionsFor (tuned.drum, tuned.tuning);
    const double batter = tapNote (tuned.drum, HeadSide::batter, tensions.batter),
                 resonant = tapNote (tuned.drum, HeadSide::resonant, tensions.resonant);
    const Interval interval{ centsBetween (batter, resonant) / 100.0 };
    constexpr double slack = 0.005; // semitones, what a search for a note leaves

    if (interval.semitones >= least.semitones - slack && interval.semitones <= greatest.semitones + slack)
        return;

    const auto nameOf = [&] (double hertz) { return Note::fromFrequency (hertz, tuned.tuning.concertPitch).nameWithCents(); };
    const auto* target = std::get_if<ByDrumNoteAndHead> (&tuned.tuning.target);
    throw InputError ("interval",
                      interval.longName() + " (batter " + nameOf (batter) + ", resonant " + nameOf (resonant) + ")",
                      least.longName() + " to " + greatest.longName() +
                          (target == nullptr ? std::string()
                                             : "; drum notes within that while the " +
                                                   std::string (target->held == HeadSide::batter ? "batter" : "resonant") +
                                                   " head stays at " + nameOf (target->heldNote) + ": " +
                                                   drumNotesWithin (tuned, *target, least, greatest)));
}

TunedDrum changed (TunedDrum tuned, const Arguments& arguments, bool hasTuning)
{
    overrideDrum (arguments, tuned.drum);
    overrideFittings (arguments, tuned.fittings);
    tuned.tuning.concertPitch = concertPitchAsked (arguments).value_or (tuned.tuning.concertPitch);

    overrideLugs (arguments, "batter-lugs", tuned.tuning.lugs.batter);
    overrideLugs (arguments, "resonant-lugs", tuned.tuning.lugs.resonant);

    const auto over = readTuningOptions (arguments, tuned.drum, tuned.tuning.concertPitch);

    if (hasTuning && over.isEmpty())
    {
        checkInterval (tuned, arguments);
        return tuned;
    }

    auto request = hasTuning ? TuningRequest::from (tuned.tuning) : TuningRequest();
    request.overrideWith (over);

    if (request.isEmpty())
        throw InputError::fault ("tuning", "is missing",
                                 tuned.drum.hasResonantHead()
                                     ? "--batter-note with --interval or --resonant-note; --drum-note with --interval, "
                                       "--batter-note or --resonant-note; --batter-tension with --resonant-tension; or a drum that has tunings"
                                     : "--batter-note, --drum-note or --batter-tension; or a drum that has tunings");

    auto tuning = assemble (request, tuned.drum, "tuning");
    tuning.concertPitch = tuned.tuning.concertPitch;
    tuning.lugs = tuned.tuning.lugs;
    tuned.tuning = tuning;
    checkInterval (tuned, arguments);
    return tuned;
}

std::vector<TunedDrum> chooseFrom (const DrumFile& file, const Arguments& arguments)
{
    const modal::Fittings fittings{ file.wires, file.hoop, file.stick };

    if (const auto wanted = arguments.value ("tuning"))
        return { changed ({ file.drum, findTuning (file.tunings, *wanted), fittings }, arguments, true) };

    if (file.tunings.empty())
        return { changed ({ file.drum, {}, fittings }, arguments, false) };

    std::vector<TunedDrum> chosen;

    for (const auto& tuning : file.tunings)
        chosen.push_back (changed ({ file.drum, tuning, fittings }, arguments, true));

    return chosen;
}
} // namespace

const std::vector<OptionGroup>& drumOptions()
{
    static const std::vector<OptionGroup> groups{
        { "The drum (options change the file or preset; without one, a 14 x 5.5 in drum with 10 lugs):",
          { { "drum", "FILE|PRESET", "the drum, the same as DRUM" },
            { "diameter", "14in", "across the bearing edges, " + limitsText (&DrumSpec::diameter) },
            { "depth", "5.5in", "from head to head, " + limitsText (&DrumSpec::depth) },
            { "lugs", "10", "lugs per head, " + limitsText (lugCount) },
            { "batter", "HEAD",
              "\"10mil\", \"2x7mil coated\", \"10mil dot 100mm 7mil\", \"7mil ring 25mm 10mil\",\nor an areal density, "
              "\"0.2653kg/m2\", or a head that \"presets\" lists" },
            { "batter-coating", "30g/m2", limitsText (&HeadConstruction::coatingDensity) + "; \"coated\" alone means 30 g/m2" },
            { "batter-dot", "100mm:7mil", "centre dot: diameter and thickness" },
            { "batter-ring", "25mm:10mil", "ring along the rim: width and thickness" },
            { "resonant", "HEAD", "the same for the resonant head" },
            { "resonant-coating", "30g/m2", "" },
            { "resonant-dot", "100mm:7mil", "" },
            { "resonant-ring", "25mm:10mil", "" },
            { "bottom", "head|closed|open", "a resonant head, a closed bottom (a kettle), or open" },
            { "vent", "12mm|none", "diameter of the vent hole" },
            { "shell", "maple", "material: maple, birch, beech, mahogany, oak, brass, bronze, aluminium, steel, acrylic" },
            { "shell-thickness", "6mm", limitsText (&Shell::thickness) },
            { "patch", "30mm:3g:120mm", "muffling (gel or tape) on the batter head: diameter, mass, distance from the centre" },
            { "air", "25C,40%,1013hPa", "temperature, humidity, pressure; none for a vacuum" },
            { "surround", "free|baffled", "on a stand, or in an infinite wall (the textbook case)" } } },
        { "The tuning (both heads by note or by tension, or the drum note with the interval):",
          { { "tuning", "NAME|NUMBER", "a tuning of the drum file; the first if not given" },
            { "batter-note", "G#3",
              "batter tap note: 25 mm from the edge, other head held still;\n\"G#3 +12\" with cents, or a frequency: 207.65Hz" },
            { "resonant-note", "C#4", "resonant tap note" },
            { "interval", "P4",
              "resonant tap note over batter tap note: P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8,\nspelled out (\"perfect fourth\"), or \"+5.5 st\"" },
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
            { "concert-pitch", "440", "A4, " + limitsText (&ConcertPitch::a4) + "; note names follow it, in files too" } } },
        fittingOptions(),
        { "The model:",
          { { "highest", "2000Hz",
              "highest mode frequency, 50 Hz to 20 kHz; if not given, 2000 Hz, or for played\nsound about 400 modes" } } },
    };

    return groups;
}

std::string sizeText (const DrumSpec& drum)
{
    const auto inches = [] (double metres) { return asText (metres / units::inch, 4); };
    return inches (drum.diameter) + " x " + inches (drum.depth) + " in";
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

std::string TunedDrum::label() const
{
    return (drum.name.empty() ? sizeText (drum) : drum.name) + (tuning.name.empty() ? "" : ", " + tuning.name);
}

std::vector<TunedDrum> chooseAll (const Arguments& arguments)
{
    auto sources = arguments.freeWords();

    if (const auto drum = arguments.value ("drum"))
    {
        if (! sources.empty())
            throw InputError ("--drum", '"' + *drum + '"', "a drum as a free word or with --drum, not both");

        sources.push_back (*drum);
    }

    if (sources.empty())
        return { changed ({}, arguments, false) };

    std::vector<TunedDrum> chosen;

    for (const auto& source : sources)
        for (auto& tuned : chooseFrom (openDrum (source, concertPitchAsked (arguments)), arguments))
            chosen.push_back (std::move (tuned));

    return chosen;
}

TunedDrum chooseOne (const Arguments& arguments)
{
    arguments.requireAtMost (1, "drum, a file or a preset");
    return chooseAll (arguments).front();
}

DrumSpec chooseDrum (const Arguments& arguments)
{
    arguments.requireAtMost (1, "drum, a file or a preset");
    auto source = arguments.value ("drum");

    if (! source && ! arguments.freeWords().empty())
        source = arguments.freeWords().front();

    auto drum = source ? openDrum (*source).drum : DrumSpec();
    overrideDrum (arguments, drum);
    return drum;
}

std::optional<std::string> outputTarget (const Arguments& arguments, const std::string& option,
                                         const std::vector<std::string>& endings)
{
    const auto given = arguments.value (option);

    if (! given || given->empty())
        return given ? std::optional<std::string> ("-") : std::nullopt;

    if (isDrum (*given))
        throw InputError ("--" + option, '"' + *given + "\" (a drum)", "a file to write; put the drum before the options");

    const auto ends = [&] (const std::string& ending) { return sheets::endsIn (*given, ending); };

    if (! endings.empty() && *given != "-" && ! isDevice (*given) && std::none_of (endings.begin(), endings.end(), ends))
        throw InputError ("--" + option, '"' + *given + '"', "a file name that ends in " + listed (endings));

    return given;
}

std::optional<double> highestAsked (const Arguments& arguments)
{
    constexpr Limits limits{ leastHighest, mostHighest };
    const auto text = arguments.value ("highest");
    return text ? std::optional (readQuantity (*text, Quantity::frequency, limits, "--highest")) : std::nullopt;
}

} // namespace tool
