#include "DrumFile.h"
#include "DrumWords.h"
#include "Fields.h"

#include <algorithm>

namespace files
{

using namespace modal;

namespace
{
void writeName (Json::Object& object, const std::string& name)
{
    if (! name.empty())
        object.emplace_back ("name", name);
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

    Json::Object object;

    if (weather && areEqual (Air::from (*weather), air))
        writeNumbers (object, *weather);
    else
        writeNumbers (object, air);

    return object;
}

Json mufflingAsJson (const Muffling& muffling)
{
    Json::Array items;

    for (const auto& item : muffling)
    {
        Json::Object object{ { "shape", mufflingShapeWords[static_cast<std::size_t> (item.shape)] },
                             { "head", headSideWords[static_cast<std::size_t> (item.head)] } };

        writeNumbers (object, item);

        items.emplace_back (object);
    }

    return items;
}

void writeLugs (Json::Object& object, const char* key, const std::vector<double>& cents)
{
    if (! cents.empty())
        object.emplace_back (key, Json::Array (cents.begin(), cents.end()));
}

Json headTarget (const char* name, const Quantity& quantity, double value)
{
    Json::Object object;
    writeNumber (object, name, quantity, value);
    return object;
}

/** Both heads, or the batter head alone. */
void writeHeadTargets (Json::Object& object, const DrumSpec& drum, const char* name, const Quantity& quantity, double batter,
                       double resonant)
{
    object.emplace_back ("batter", headTarget (name, quantity, batter));

    if (drum.hasResonantHead())
        object.emplace_back ("resonant", headTarget (name, quantity, resonant));
}
} // namespace

Json headAsJson (const HeadConstruction& head)
{
    Json::Object object;
    writeName (object, head.name);
    object.emplace_back ("plies", head.plies);

    HeadConstruction plain;
    plain.plyThickness = 0.0; // always written
    writeNumbers (object, head, &plain);
    return object;
}

Json drumAsJson (const DrumSpec& drum, const std::optional<Weather>& weather)
{
    Json::Object object;
    writeName (object, drum.name);
    writeNumbers (object, drum);
    object.emplace_back ("lugs", drum.lugs);
    object.emplace_back ("bottom", bottomWords[static_cast<std::size_t> (drum.bottom)]);
    object.emplace_back ("batter", headAsJson (drum.batter));
    object.emplace_back ("resonant", headAsJson (drum.resonant));

    Json::Object vent, shell{ { "material", drum.shell.material } };
    writeNumbers (vent, drum.vent);
    writeNumbers (shell, drum.shell);
    object.emplace_back ("vent", vent);
    object.emplace_back ("shell", shell);

    if (! drum.muffling.empty())
        object.emplace_back ("muffling", mufflingAsJson (drum.muffling));

    object.emplace_back ("air", airAsJson (drum.air, weather));
    object.emplace_back ("surround", surroundWords[static_cast<std::size_t> (drum.surround)]);
    return object;
}

Json tuningAsJson (const Tuning& tuning, const DrumSpec& drum)
{
    Json::Object object;
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
            object.emplace_back ("interval_semitones", byDrumNote->interval.semitones);
    }

    writeLugs (object, "batter_lugs_cents", tuning.lugs.batter);
    writeLugs (object, "resonant_lugs_cents", tuning.lugs.resonant);

    return object;
}

std::string writeDrum (const DrumFile& file)
{
    Json::Object document{ { "format", drumFormat }, { "version", drumFormatVersion } };
    const auto drum = drumAsJson (file.drum, file.weather);
    document.insert (document.end(), drum.object()->begin(), drum.object()->end());

    document.emplace_back ("wires", wiresAsJson (file.wires));
    document.emplace_back ("stick", stickAsJson (file.stick));
    document.emplace_back ("hoop", hoopWords[static_cast<std::size_t> (file.hoop.kind)]);

    Json::Array tunings;

    for (const auto& tuning : file.tunings)
        tunings.push_back (tuningAsJson (tuning, file.drum));

    document.emplace_back ("tunings", tunings);
    return Json (document).written();
}

} // namespace files
