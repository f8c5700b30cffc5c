#include "DrumFile.h"
#include "DrumWords.h"
#include "Fields.h"
#include "HoopNames.h"
#include "PlayingFile.h"

#include <algorithm>

namespace files
{

using namespace modal;

namespace
{
void writeName (Json& object, const std::string& name)
{
    if (! name.empty())
        object["name"] = name;
}

bool areEqual (const Air& a, const Air& b)
{
    const auto& numbers = numbersOf<Air>;
    return std::all_of (numbers.begin(), numbers.end(), [&] (const auto& n) { return a.*n.member == b.*n.member; });
}

Json airAsJson (const Air& air, const std::optional<Weather>& weather)
{
    if (air.isVacuum())
        return noneWord;

    Json object = Json::object();

    if (weather && areEqual (Air::from (*weather), air))
        writeNumbers (object, *weather);
    else
        writeNumbers (object, air);

    return object;
}

void writeLugs (Json& object, const char* key, const std::vector<double>& cents)
{
    if (! cents.empty())
        object[key] = cents;
}

Json headTarget (const char* name, const Quantity& quantity, double value)
{
    Json object = Json::object();
    writeNumber (object, name, quantity, value);
    return object;
}

/** Both heads, or the batter head alone. */
void writeHeadTargets (Json& object, const DrumSpec& drum, const char* name, const Quantity& quantity, double batter,
                       double resonant)
{
    object["batter"] = headTarget (name, quantity, batter);

    if (drum.hasResonantHead())
        object["resonant"] = headTarget (name, quantity, resonant);
}
} // namespace

Json mufflingAsJson (const Muffling& muffling)
{
    Json items = Json::array();

    for (const auto& item : muffling)
    {
        Json object{ { "shape", mufflingShapeWords[static_cast<std::size_t> (item.shape)] },
                     { "head", headSideWords[static_cast<std::size_t> (item.head)] } };

        writeNumbers (object, item);

        items.emplace_back (object);
    }

    return items;
}

Json headAsJson (const HeadConstruction& head)
{
    Json object = Json::object();
    writeName (object, head.name);
    object["plies"] = head.plies;

    HeadConstruction plain;
    plain.plyThickness = 0.0; // always written
    writeNumbers (object, head, &plain);
    return object;
}

Json drumAsJson (const DrumSpec& drum, const std::optional<Weather>& weather)
{
    Json object = Json::object();
    writeName (object, drum.name);
    writeNumbers (object, drum);
    object["lugs"] = drum.lugs;
    object["bottom"] = bottomWords[static_cast<std::size_t> (drum.bottom)];
    object["batter"] = headAsJson (drum.batter);
    object["resonant"] = headAsJson (drum.resonant);

    Json vent = Json::object(), shell{ { "material", drum.shell.material } };
    writeNumbers (vent, drum.vent);
    writeNumbers (shell, drum.shell);
    object["vent"] = vent;
    object["shell"] = shell;

    if (! drum.muffling.empty())
        object["muffling"] = mufflingAsJson (drum.muffling);

    object["air"] = airAsJson (drum.air, weather);
    object["surround"] = surroundWords[static_cast<std::size_t> (drum.surround)];
    return object;
}

Json tuningAsJson (const Tuning& tuning, const DrumSpec& drum)
{
    Json object = Json::object();
    writeName (object, tuning.name);
    writeNumber (object, "concert_pitch", Quantity::frequency, tuning.concertPitch.a4);

    if (const auto* notes = std::get_if<ByTapNotes> (&tuning.target))
    {
        writeHeadTargets (object, drum, "tap_note", Quantity::frequency, notes->batter, notes->resonant);
    }
    else if (const auto* tensions = std::get_if<ByTension> (&tuning.target))
    {
        writeHeadTargets (object, drum, "tension", Quantity::tension, tensions->batter, tensions->resonant);
    }
    else if (const auto* byDrumNote = std::get_if<ByDrumNote> (&tuning.target))
    {
        writeNumber (object, "drum_note", Quantity::frequency, byDrumNote->drumNote);

        if (drum.hasResonantHead())
            object["interval_semitones"] = byDrumNote->interval.semitones;
    }

    else if (const auto* withHead = std::get_if<ByDrumNoteAndHead> (&tuning.target))
    {
        writeNumber (object, "drum_note", Quantity::frequency, withHead->drumNote);
        object[withHead->held == HeadSide::batter ? "batter" : "resonant"] =
            headTarget ("tap_note", Quantity::frequency, withHead->heldNote);
    }

    writeLugs (object, "batter_lugs_cents", tuning.lugs.batter);
    writeLugs (object, "resonant_lugs_cents", tuning.lugs.resonant);

    return object;
}

std::string writeDrum (const DrumFile& file)
{
    Json document{ { "format", drumFormat }, { "version", drumFormatVersion } };
    document.update (drumAsJson (file.drum, file.weather));

    document["wires"] = wiresAsJson (file.wires);
    document["stick"] = stickAsJson (file.stick);
    document["hoop"] = nameOf (file.hoop);

    if (file.microphones)
        document["microphones"] = microphonesAsJson (*file.microphones);
    if (file.pattern)
        document["pattern"] = patternAsJson (*file.pattern);

    if (file.place)
        document["place"] = placeAsJson (*file.place);

    Json tunings = Json::array();

    for (const auto& tuning : file.tunings)
        tunings.push_back (tuningAsJson (tuning, file.drum));

    document["tunings"] = tunings;

    if (! file.window.is_null())
        document["window"] = file.window;

    return written (document);
}

} // namespace files
