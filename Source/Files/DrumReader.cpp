#include "DrumFile.h"
#include "DrumWords.h"
#include "Fields.h"
#include "HeadText.h"
#include "HoopNames.h"
#include "PlayingFile.h"
#include "TextFile.h"
#include "TuningRequest.h"

#include "Modal/InputError.h"

#include <algorithm>

namespace files
{

using namespace modal;

namespace
{
bool isNone (const Json& value)
{
    return value.is_string() && value.get_ref<const std::string&>() == noneWord;
}

Vent readVent (const Json& value, const std::string& path)
{
    Vent vent;

    if (isNone (value))
    {
        vent.diameter = 0.0;
        return vent;
    }

    ObjectReader reader (value, path);
    readNumbers (reader, vent);
    reader.finish();
    return vent;
}

std::string readMaterial (const std::string& name, const std::string& path)
{
    try
    {
        findMaterial (name);
        return name;
    }
    catch (const InputError& e)
    {
        throw e.of (path);
    }
}

/** An object, or the material alone. */
Shell readShell (const Json& value, const std::string& path)
{
    Shell shell;

    if (value.is_string())
    {
        shell.material = readMaterial (value.get<std::string>(), path);
        return shell;
    }

    ObjectReader reader (value, path);

    if (const auto material = reader.text ("material"))
        shell.material = readMaterial (*material, reader.pathOf ("material"));

    readNumbers (reader, shell);
    reader.finish();
    return shell;
}

/** Weather, the air's own properties, or none. */
void readAir (const Json& value, const std::string& path, DrumFile& file)
{
    if (isNone (value))
    {
        file.drum.air = Air::vacuum();
        return;
    }

    ObjectReader reader (value, path);
    const auto& members = value.items();
    const auto isWeather = [] (const auto& member)
    {
        const auto& numbers = numbersOf<Weather>;
        return std::any_of (numbers.begin(), numbers.end(), [&] (const auto& n) { return member.key().starts_with (n.name); });
    };

    if (std::any_of (members.begin(), members.end(), isWeather))
    {
        Weather weather;
        readNumbers (reader, weather);
        reader.finish();
        file.weather = weather;
        file.drum.air = Air::from (weather);
    }
    else
    {
        readNumbers (reader, file.drum.air);
        reader.finish();
    }
}

struct HeadTarget
{
    std::optional<double> note, tension;
};

/** A tap note or a tension of one head. */
HeadTarget readHeadTarget (const Json& value, const HeadConstruction& head, ConcertPitch pitch, const std::string& path)
{
    HeadTarget target;
    ObjectReader reader (value, path);

    if (const auto text = reader.text ("tap_note"))
        target.note = readNote (*text, pitch, reader.pathOf ("tap_note"));

    if (const auto hertz = reader.number ("tap_note", Quantity::frequency, limitsOf (noteRange)))
    {
        if (target.note)
            throw InputError (reader.pathOf ("tap_note"), "given twice", "as a note or as a frequency");

        target.note = hertz;
    }

    target.tension = reader.number ("tension", Quantity::tension, tensionLimits (head));
    reader.finish();

    if (target.note.has_value() == target.tension.has_value())
        throw InputError (path, target.note ? "a note and a tension" : "neither a note nor a tension",
                          "one of tap_note, tap_note_hz, tension_n_per_m");

    return target;
}

std::vector<Tuning> readTunings (const Json& value, const DrumSpec& drum, const std::string& path,
                                 std::optional<ConcertPitch> pitch)
{
    if (! value.is_array())
        throw InputError (path, described (value), "a list of tunings in square brackets");

    std::vector<Tuning> tunings;

    for (const auto& item : value)
        tunings.push_back (readTuning (item, drum, path + "[" + std::to_string (tunings.size()) + "]", pitch));

    return tunings;
}

void readFormat (ObjectReader& reader)
{
    const auto format = reader.choice ("format", { drumFormat });
    const auto version = reader.count ("version", 1, drumFormatVersion);

    if (! format)
        reader.noteMissing ("format", std::string ("\"") + drumFormat + "\"");

    if (! version)
        reader.noteMissing ("version", std::to_string (drumFormatVersion));
}

/** The heads and what stands where the resonant head would be. */
void readHeads (ObjectReader& reader, DrumSpec& drum)
{
    if (const auto bottom = reader.choice ("bottom", bottomWords))
        drum.bottom = static_cast<Bottom> (*bottom);

    const auto* batter = reader.member ("batter");
    const auto* resonant = reader.member ("resonant");

    if (batter == nullptr)
        reader.noteMissing ("batter", "a head, such as { \"thickness_mil\": 10 }");

    if (resonant == nullptr && drum.hasResonantHead())
        reader.noteMissing ("resonant", "a head, such as { \"thickness_mil\": 3 }, or \"bottom\": \"closed\" or \"open\"");

    if (batter != nullptr)
        drum.batter = readHead (*batter, reader.pathOf ("batter"));

    if (resonant != nullptr)
        drum.resonant = readHead (*resonant, reader.pathOf ("resonant"));
}

/** What the fields cannot say alone: a dot wider than its head. */
void checkAsAWhole (const DrumSpec& drum, const ObjectReader& reader)
{
    try
    {
        check (drum);
    }
    catch (const InputError& e)
    {
        throw e.of (reader.pathOf (e.field()));
    }
}
} // namespace

HeadConstruction readHead (const Json& value, const std::string& path)
{
    if (value.is_string())
        return readHeadText (value.get<std::string>(), path);

    HeadConstruction head;
    ObjectReader reader (value, path);
    head.name = reader.text ("name").value_or ("");
    head.plies = reader.count (plyCount).value_or (1);
    head.plyThickness = 0.0;
    readNumbers (reader, head);
    const auto density = reader.number ("areal_density", Quantity::arealDensity, limitsOf (arealDensityRange));
    reader.finish();

    if (density.has_value() == (head.plyThickness > 0.0))
        throw InputError (path, density ? "a thickness and an areal density" : "a head without thickness",
                          "one of thickness_mil, thickness_mm, areal_density_kg_per_m2");

    if (density)
        setArealDensity (head, *density, reader.pathOf ("areal_density_kg_per_m2"));

    return head;
}

Muffling readMuffling (const Json& value, const std::string& path)
{
    if (! value.is_array())
        throw InputError (path, described (value), "a list of what lies on the heads, in square brackets");

    Muffling muffling;

    for (const auto& item : value)
    {
        ObjectReader reader (item, path + "[" + std::to_string (muffling.size()) + "]");
        MufflingItem read;

        if (const auto shape = reader.choice ("shape", mufflingShapeWords))
            read.shape = static_cast<MufflingItem::Shape> (*shape);
        if (const auto head = reader.choice ("head", headSideWords))
            read.head = static_cast<HeadSide> (*head);

        readNumbers (reader, read);
        reader.finish();
        muffling.push_back (read);
    }

    return muffling;
}

Tuning readTuning (const Json& value, const DrumSpec& drum, const std::string& path, std::optional<ConcertPitch> wantedPitch)
{
    ObjectReader reader (value, path);
    const auto name = reader.text ("name").value_or ("");
    const ConcertPitch filesPitch{
        reader.number ("concert_pitch", Quantity::frequency, limitsOf (numberOf (&ConcertPitch::a4))).value_or (ConcertPitch{}.a4)
    };
    const auto pitch = wantedPitch.value_or (filesPitch);

    TuningRequest request;

    if (const auto* batter = reader.member ("batter"))
    {
        const auto target = readHeadTarget (*batter, drum.batter, pitch, reader.pathOf ("batter"));
        request.batterNote = target.note;
        request.batterTension = target.tension;
    }

    if (const auto* resonant = reader.member ("resonant"))
    {
        const auto target = readHeadTarget (*resonant, drum.resonant, pitch, reader.pathOf ("resonant"));
        request.resonantNote = target.note;
        request.resonantTension = target.tension;
    }

    if (const auto text = reader.text ("drum_note"))
        request.drumNote = readNote (*text, pitch, reader.pathOf ("drum_note"));
    if (const auto hertz = reader.number ("drum_note", Quantity::frequency, limitsOf (noteRange)))
        request.drumNote = hertz;
    if (const auto text = reader.text ("interval"))
        request.interval = Interval::parse (*text, reader.pathOf ("interval"));
    if (const auto semitones =
            reader.number ("interval_semitones", Quantity::pureNumber, limitsOf (numberOf (&Interval::semitones))))
        request.interval = Interval{ *semitones };

    LugCents lugs;
    const auto& cents = Quantity::cents.si();
    lugs.batter = reader.numbers ("batter_lugs", cents, limitsOf (lugCentsRange)).value_or (lugs.batter);
    lugs.resonant = reader.numbers ("resonant_lugs", cents, limitsOf (lugCentsRange)).value_or (lugs.resonant);
    reader.finish();

    auto tuning = assemble (request, drum, path);
    tuning.name = name;
    tuning.lugs = lugs;
    tuning.concertPitch = pitch;
    return tuning;
}

DrumFile readDrum (const std::string& text, const std::string& source, std::optional<ConcertPitch> pitch)
{
    const auto document = parseJson (text, source);
    ObjectReader reader (document, source);
    readFormat (reader);

    DrumFile file;
    auto& drum = file.drum;
    drum.name = reader.text ("name").value_or ("");
    drum.diameter = drum.depth = 0.0;
    readNumbers (reader, drum);

    if (drum.diameter <= 0.0)
        reader.noteMissing ("diameter", "a length, such as \"diameter_in\": 14");
    if (drum.depth <= 0.0)
        reader.noteMissing ("depth", "a length, such as \"depth_in\": 5.5");

    if (const auto lugs = reader.count (lugCount))
        drum.lugs = *lugs;
    else
        reader.noteMissing ("lugs", "rods a head, " + limitsText (lugCount));

    readHeads (reader, drum);

    if (const auto* vent = reader.member ("vent"))
        drum.vent = readVent (*vent, reader.pathOf ("vent"));
    if (const auto* shell = reader.member ("shell"))
        drum.shell = readShell (*shell, reader.pathOf ("shell"));
    if (const auto* muffling = reader.member ("muffling"))
        drum.muffling = readMuffling (*muffling, reader.pathOf ("muffling"));
    if (const auto* wires = reader.member ("wires"))
        file.wires = readWires (*wires, reader.pathOf ("wires"));
    if (const auto* stick = reader.member ("stick"))
        file.stick = readStick (*stick, reader.pathOf ("stick"));
    if (const auto* place = reader.member ("place"))
        file.place = readPlace (*place, reader.pathOf ("place"));
    if (const auto hoop = reader.text ("hoop"))
        file.hoop = namedHoop (*hoop, reader.pathOf ("hoop"));
    if (const auto* air = reader.member ("air"))
        readAir (*air, reader.pathOf ("air"), file);
    if (const auto surround = reader.choice ("surround", surroundWords))
        drum.surround = static_cast<Surround> (*surround);

    if (const auto* microphones = reader.member ("microphones"))
        file.microphones = readMicrophones (*microphones, reader.pathOf ("microphones"));
    if (const auto* pattern = reader.member ("pattern"))
        file.pattern = readPattern (*pattern, reader.pathOf ("pattern"));

    if (const auto* window = reader.member ("window"))
    {
        if (! window->is_object())
            throw InputError (reader.pathOf ("window"), described (*window), "an object that the plugin wrote");
        file.window = *window;
    }

    if (const auto* tunings = reader.member ("tunings"))
        file.tunings = readTunings (*tunings, drum, reader.pathOf ("tunings"), pitch);

    reader.finish();
    checkAsAWhole (drum, reader);
    return file;
}

DrumFile loadDrum (const std::filesystem::path& path, std::optional<ConcertPitch> pitch)
{
    return readDrum (loadText (path), path.filename().string(), pitch);
}

} // namespace files
