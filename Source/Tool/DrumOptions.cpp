#include "DrumOptions.h"

#include "OptionText.h"

#include "Files/DrumWords.h"
#include "Files/HeadText.h"
#include "Files/NearestWord.h"
#include "Modal/InputError.h"
#include "Modal/hardware/Material.h"

#include <algorithm>

namespace tool
{

using namespace modal;
using namespace files;

namespace
{
/** "25C,40%,1013hPa" in any order, each at most once. */
Weather readWeather (const std::string& text)
{
    Weather weather;

    for (const auto& part : splitAt (text, ','))
    {
        const auto& fields = numbersOf<Weather>;
        const auto field =
            std::find_if (fields.begin(), fields.end(),
                          [&] (const auto& f) { return takeQuantity (part, quantityOf (f.dimension)).has_value(); });

        std::string_view rest = part;

        // A number alone may be a temperature or a humidity.
        if (takeNumber (rest) && rest.empty())
            throw InputError::fault ("--air", "says \"" + part + "\" without a unit", part + "C or " + part + "%");

        if (field == fields.end())
            throw InputError ("--air", '"' + part + '"',
                              "none, or temperature, humidity and pressure with their units: 25C,40%,1013hPa");

        weather.*field->member = readQuantity (part, field->member, std::string ("--air, ") + field->name);
    }

    return weather;
}

void overrideHead (const Arguments& arguments, const std::string& side, HeadConstruction& head)
{
    if (const auto text = arguments.value (side))
        head = readHeadText (*text, "--" + side);

    overrideNumber (arguments, side + "-coating", &HeadConstruction::coatingDensity, head);

    const auto overridePart = [&] (const char* part, const char* extent, const char* example,
                                   double HeadConstruction::*extentMember, double HeadConstruction::*thicknessMember)
    {
        const auto option = "--" + side + "-" + part;
        const auto text = arguments.value (side + "-" + part);

        if (! text)
            return;

        const auto colon = text->find (':');

        if (colon == std::string::npos)
            throw InputError (option, '"' + *text + '"',
                              std::string (extent) + " and thickness with a colon between: " + example);

        head.*extentMember = readQuantity (text->substr (0, colon), extentMember, option + ", " + extent);
        head.*thicknessMember = readQuantity (text->substr (colon + 1), thicknessMember, option + ", thickness");
    };

    overridePart ("dot", "diameter", "100mm:7mil", &HeadConstruction::dotDiameter, &HeadConstruction::dotThickness);
    overridePart ("ring", "width", "25mm:10mil", &HeadConstruction::ringWidth, &HeadConstruction::ringThickness);
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
} // namespace

const OptionGroup& drumOptions()
{
    static const OptionGroup group{
        "The drum (options change the file or preset; without one, a 14 x 5.5 in drum with 10 lugs):",
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
          { "shell", "maple", "material: " + files::listed (modal::materialNames()) },
          { "shell-thickness", "6mm", limitsText (&Shell::thickness) },
          { "patch", "30mm:3g:120mm", "muffling (gel or tape) on the batter head: diameter, mass, distance from the centre" },
          { "air", "25C,40%,1013hPa", "temperature, humidity, pressure; none for a vacuum" },
          { "surround", "free|baffled", "on a stand, or in an infinite wall (the textbook case)" } }
    };
    return group;
}

std::optional<Weather> weatherAsked (const Arguments& arguments)
{
    const auto text = arguments.value ("air");
    return text && *text != noneWord ? std::optional (readWeather (*text)) : std::nullopt;
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

    if (const auto index = readWord (arguments, "shell", materialNames()))
        drum.shell.material = materialNames()[*index];

    overrideNumber (arguments, "shell-thickness", &Shell::thickness, drum.shell);

    addPatch (arguments, drum.muffling);

    if (const auto weather = weatherAsked (arguments))
        drum.air = Air::from (*weather);
    else if (arguments.has ("air"))
        drum.air = Air::vacuum();

    if (! drum.hasResonantHead())
        refuseWithoutResonantHead (arguments);

    check (drum);
}

} // namespace tool
