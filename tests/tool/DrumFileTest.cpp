#include "Files/DrumFile.h"
#include "Files/Fields.h"
#include "Files/LessonFile.h"
#include "Files/PartPresets.h"
#include "Files/Presets.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Modal/Solve.h"
#include "Modal/hardware/Material.h"
#include "tests/Catch.h"
#include "tests/CommaLocale.h"

#include <algorithm>
#include <fstream>
#include <random>
#include <string>

using namespace modal;

namespace
{
Tuning tuningOf (const std::string& name, const decltype (Tuning::target)& target, ConcertPitch pitch = {})
{
    Tuning tuning;
    tuning.name = name;
    tuning.target = target;
    tuning.concertPitch = pitch;
    return tuning;
}

/** A drum whose every field differs from its default. */
files::DrumFile oddDrum()
{
    files::DrumFile file;
    auto& drum = file.drum;
    drum.name = "Odd \"one\"";
    drum.diameter = 1.0 / 3.0;
    drum.depth = 0.123456789012345;
    drum.lugs = 7;
    drum.batter = { "double", 178.0e-6, 2, 0.0251, 0.1, 190.5e-6, 0.0254, 254.0e-6 };
    drum.resonant = { "thin", 50.8e-6, 1, 0.001, 0.02, 1.0e-4, 0.01, 2.0e-4 };
    drum.vent = { 9.1e-3, 5.3e-3 };
    drum.shell = { "brass", 1.23e-3 };
    drum.surround = Surround::baffled;
    drum.muffling = { { MufflingItem::Shape::patch, HeadSide::batter, 0.031, 0.111, 0.77, 0.0041, 71.0 },
                      { MufflingItem::Shape::ring, HeadSide::resonant, 0.021, 0.12, 0.0, 0.0033, 12.5 } };
    file.wires = { .on = false,
                   .strands = 16,
                   .strandMass = 1.3e-3,
                   .lengthShare = 0.8,
                   .bedWidth = 0.05,
                   .strandTension = 3.21,
                   .pressDepth = -0.31e-3,
                   .unevenness = 0.123,
                   .bending = 2.1e-4,
                   .plateMass = 5.3e-3,
                   .plateWidth = 11.7e-3,
                   .strapLength = 21.9e-3,
                   .strapLoss = 0.31 };
    file.hoop.kind = HoopSpec::Kind::cast;
    file.stick = { .length = 0.3987,
                   .diameter = 15.03e-3,
                   .taperLength = 0.0812,
                   .tipDiameter = 9.3e-3,
                   .tipLength = 11.1e-3,
                   .neckDiameter = 6.2e-3,
                   .tipMaterial = StickSpec::TipMaterial::nylon,
                   .brushWires = 77.0,
                   .brushWidth = 0.081,
                   .brushMaterial = StickSpec::BrushMaterial::nylon,
                   .woodDensity = 731.0,
                   .woodModulus = 13.7e9,
                   .fulcrum = 0.61,
                   .gripStiffness = 2100.0,
                   .gripDamping = 5.5,
                   .handMass = 0.37 };
    file.weather = Weather{ 303.15, 0.35, 90000.0 };
    drum.air = Air::from (*file.weather);
    file.tunings = { tuningOf ("a", ByTapNotes{ 207.123456789, 277.1 }, { 442.0 }), tuningOf ("b", ByTension{ 2000.5, 1990.0 }),
                     tuningOf ("c", ByDrumNote{ 146.8, { 5.1234 } }),
                     tuningOf ("d", ByDrumNoteAndHead{ 151.2, HeadSide::resonant, 277.2 }) };
    file.tunings[0].lugs = { { 0, 0, -30.5, 0, 0, 0, 0 }, { 1, 2, 3, 4, 5, 6, 7 } };
    return file;
}

void checkSame (const HeadConstruction& a, const HeadConstruction& b)
{
    CHECK (a.name == b.name);
    CHECK (a.plyThickness == b.plyThickness);
    CHECK (a.plies == b.plies);
    CHECK (a.coatingDensity == b.coatingDensity);
    CHECK (a.dotDiameter == b.dotDiameter);
    CHECK (a.dotThickness == b.dotThickness);
    CHECK (a.ringWidth == b.ringWidth);
    CHECK (a.ringThickness == b.ringThickness);
}

void checkSame (const DrumSpec& a, const DrumSpec& b)
{
    CHECK (a.name == b.name);
    CHECK (a.diameter == b.diameter);
    CHECK (a.depth == b.depth);
    CHECK (a.lugs == b.lugs);
    CHECK (a.bottom == b.bottom);
    CHECK (a.surround == b.surround);
    CHECK (a.vent.diameter == b.vent.diameter);
    CHECK (a.vent.length == b.vent.length);
    CHECK (a.shell.material == b.shell.material);
    CHECK (a.shell.thickness == b.shell.thickness);
    CHECK (a.air.density == b.air.density);
    CHECK (a.air.soundSpeed == b.air.soundSpeed);
    CHECK (a.air.viscosity == b.air.viscosity);
    CHECK (a.air.heatRatio == b.air.heatRatio);
    CHECK (a.air.prandtl == b.air.prandtl);
    checkSame (a.batter, b.batter);
    checkSame (a.resonant, b.resonant);
}

template <class Owner>
void checkSameNumbers (const Owner& a, const Owner& b)
{
    for (const auto& number : numbersOf<Owner>)
    {
        INFO (number.name);
        CHECK (a.*number.member == b.*number.member);
    }
}

/** Drum files whose numbers are anywhere within their limits; half of them with four decimals, as a person writes them. */
class RandomDrumFiles
{
public:
    files::DrumFile next()
    {
        files::DrumFile file;
        auto& drum = file.drum;
        fill (drum);
        drum.lugs = whole (lugCount.low, lugCount.high);
        drum.bottom = static_cast<Bottom> (whole (0, 2));
        drum.surround = static_cast<Surround> (whole (0, 1));
        fill (drum.vent);
        fill (drum.shell);
        drum.shell.material = materialNames()[static_cast<std::size_t> (whole (0, static_cast<int> (materialNames().size()) - 1))];
        drum.batter = head (drum.radius());
        drum.resonant = head (drum.radius());

        if (coin())
        {
            MufflingItem item;
            fill (item);
            item.shape = static_cast<MufflingItem::Shape> (whole (0, 1));
            item.head = coin() && drum.hasResonantHead() ? HeadSide::resonant : HeadSide::batter;
            item.distance = between (0.0, drum.radius());
            item.size = between (0.005, 0.99 * std::min (0.2, drum.radius()));
            drum.muffling.push_back (item);
        }

        if (coin())
        {
            file.weather.emplace();
            fill (*file.weather);
            drum.air = Air::from (*file.weather);
        }
        else if (coin())
            fill (drum.air);

        fill (file.wires);
        file.wires.on = coin();
        file.wires.strands = whole (strandCount.low, strandCount.high);
        fill (file.stick);
        file.stick.tipMaterial = static_cast<StickSpec::TipMaterial> (whole (0, 1));
        file.hoop.kind = static_cast<HoopSpec::Kind> (whole (0, 3));

        if (coin())
        {
            auto& microphones = file.microphones.emplace();
            for (auto& m : microphones)
                m = { between (-15.0, 15.0), between (-15.0, 15.0), between (-15.0, 15.0),
                      between (-60.0, 24.0), between (-1.0, 1.0),   coin() };
        }

        if (coin())
            file.pattern = files::PatternSpec{ "o8.. c2.r9", between (20.0, 400.0), whole (1, 16) };

        Tuning tuning;
        fill (tuning.concertPitch);
        if (coin())
            tuning.target = ByTapNotes{ between (10.0, 5000.0), drum.hasResonantHead() ? between (10.0, 5000.0) : 0.0 };
        else
            tuning.target = ByTension{ between (1.0, yieldTension (drum.batter)),
                                       drum.hasResonantHead() ? between (1.0, yieldTension (drum.resonant)) : 0.0 };
        if (coin())
            for (int lug = 0; lug < drum.lugs; ++lug)
                tuning.lugs.batter.push_back (between (-300.0, 300.0));
        file.tunings = { tuning };
        return file;
    }

private:
    double between (double low, double high)
    {
        const auto value = std::uniform_real_distribution (low, high) (random);
        return coin() ? value : std::clamp (std::round (1.0e4 * value) / 1.0e4, low, high);
    }
    int whole (double low, double high)
    {
        return std::uniform_int_distribution (static_cast<int> (low), static_cast<int> (high)) (random);
    }
    bool coin() { return whole (0, 1) == 1; }

    template <class Owner>
    void fill (Owner& owner)
    {
        // Some stay as they are, since files leave out what is usual.
        for (const auto& number : numbersOf<Owner>)
            if (whole (0, 3) > 0)
                owner.*number.member = between (number.low, number.high);
    }

    HeadConstruction head (double radius)
    {
        HeadConstruction head;
        fill (head);
        head.plies = whole (plyCount.low, plyCount.high);
        head.dotDiameter = between (0.0, 1.9 * radius);
        head.ringWidth = between (0.0, 0.95 * radius);
        return head;
    }

    std::mt19937 random{ 1 };
};

Tuning onlyTuningOf (const std::string& tuning)
{
    const auto file =
        files::readDrum (R"({ "format": "snarewright-drum", "version": 1, "diameter_in": 14, "depth_in": 5.5, "lugs": 10,
                                            "batter": "10mil", "resonant": "3mil", "tunings": [)" +
                             tuning + "] }",
                         "t");
    return file.tunings.at (0);
}
} // namespace

TEST_CASE ("A written drum reads back bit for bit", "[drum-file]")
{
    const auto file = oddDrum();
    const auto again = files::readDrum (files::writeDrum (file), "t");

    checkSame (file.drum, again.drum);
    REQUIRE (again.weather.has_value());
    CHECK (again.weather->temperature == file.weather->temperature);
    REQUIRE (again.tunings.size() == file.tunings.size());
    CHECK (again.tunings[0].concertPitch.a4 == 442.0);
    CHECK (again.tunings[0].lugs.batter == file.tunings[0].lugs.batter);
    CHECK (again.tunings[0].lugs.resonant == file.tunings[0].lugs.resonant);
    CHECK (again.tunings[1].lugs.batter.empty());
    REQUIRE (again.drum.muffling.size() == 2);
    CHECK (again.drum.muffling[0].angle == file.drum.muffling[0].angle);
    CHECK (again.drum.muffling[1].shape == MufflingItem::Shape::ring);
    CHECK (again.drum.muffling[1].head == HeadSide::resonant);
    CHECK (again.drum.muffling[1].resistance == 12.5);
    CHECK (std::get<ByTapNotes> (again.tunings[0].target).batter == 207.123456789);
    CHECK (std::get<ByTapNotes> (again.tunings[0].target).resonant == 277.1);
    CHECK (std::get<ByTension> (again.tunings[1].target).batter == 2000.5);
    CHECK (std::get<ByDrumNote> (again.tunings[2].target).drumNote == 146.8);
    CHECK (std::get<ByDrumNote> (again.tunings[2].target).interval.semitones == 5.1234);
    CHECK (std::get<ByDrumNoteAndHead> (again.tunings[3].target).drumNote == 151.2);
    CHECK (std::get<ByDrumNoteAndHead> (again.tunings[3].target).held == HeadSide::resonant);
    CHECK (std::get<ByDrumNoteAndHead> (again.tunings[3].target).heldNote == 277.2);
    CHECK (files::writeDrum (again) == files::writeDrum (file));
}

TEST_CASE ("Any drum, wires, stick, microphones, pattern and tuning come back from a file bit for bit", "[drum-file]")
{
    RandomDrumFiles drums;

    for (int i = 0; i < 300; ++i)
    {
        CAPTURE (i);
        const auto file = drums.next();
        const auto text = files::writeDrum (file);
        const auto again = files::readDrum (text, "t");
        CHECK (files::writeDrum (again) == text);

        checkSame (file.drum, again.drum);
        checkSameNumbers (file.wires, again.wires);
        checkSameNumbers (file.stick, again.stick);
        REQUIRE (again.drum.muffling.size() == file.drum.muffling.size());
        if (! file.drum.muffling.empty())
            checkSameNumbers (file.drum.muffling.front(), again.drum.muffling.front());
        REQUIRE (again.weather.has_value() == file.weather.has_value());
        if (file.weather)
            checkSameNumbers (*file.weather, *again.weather);
        REQUIRE (again.microphones.has_value() == file.microphones.has_value());
        if (file.microphones)
            for (std::size_t m = 0; m < 3; ++m)
            {
                const auto &was = (*file.microphones)[m], &is = (*again.microphones)[m];
                CHECK ((is.x == was.x && is.y == was.y && is.z == was.z));
                CHECK ((is.level == was.level && is.pan == was.pan && is.isInverted == was.isInverted));
            }
        CHECK (again.pattern.has_value() == file.pattern.has_value());
        if (file.pattern)
            CHECK (again.pattern->tempo == file.pattern->tempo);
        CHECK (again.tunings.front().lugs.batter == file.tunings.front().lugs.batter);
        CHECK (again.tunings.front().concertPitch.a4 == file.tunings.front().concertPitch.a4);
    }
}

TEST_CASE ("Wires, hoops and stick survive a round trip bit for bit", "[drum-file]")
{
    const auto file = oddDrum();
    const auto again = files::readDrum (files::writeDrum (file), "t");

    CHECK (again.wires.on == file.wires.on);
    CHECK (again.wires.strands == file.wires.strands);
    for (const auto& field : modal::numbersOf<WireSpec>)
        CHECK (again.wires.*field.member == file.wires.*field.member);
    CHECK (again.hoop.kind == file.hoop.kind);
    for (const auto& field : modal::numbersOf<StickSpec>)
        CHECK (again.stick.*field.member == file.stick.*field.member);
    CHECK (again.stick.tipMaterial == file.stick.tipMaterial);
    CHECK (again.stick.brushMaterial == file.stick.brushMaterial);
}

TEST_CASE ("A stick by name is the preset, and one from before sticks had a body is as much heavier", "[drum-file]")
{
    const auto named = files::readStick (files::Json ("hickory-nylon"), "stick");
    CHECK (named.tipMaterial == StickSpec::TipMaterial::nylon);
    const auto heavier = files::readStick (files::Json{ { "tip_mass_g", 21 }, { "shaft_mass_g", 45 } }, "stick");
    CHECK (heavier.woodDensity == Approx (1.5 * StickSpec{}.woodDensity));
    const auto usual = files::readStick (files::Json{ { "tip_mass_g", 14 }, { "tip_stiffness_n_per_m15", 8e5 } }, "stick");
    CHECK (usual.woodDensity == Approx (StickSpec{}.woodDensity));
    CHECK (usual.tipMaterial == StickSpec::TipMaterial::wood);
    CHECK_THROWS_AS (files::readStick (files::Json ("poker"), "stick"), modal::InputError);
}

TEST_CASE ("A drum file is the same text and the same drum under a locale that uses a comma", "[drum-file]")
{
    const auto file = oddDrum();
    const auto text = files::writeDrum (file);

    const tests::CommaLocale locale;
    CHECK (files::writeDrum (file) == text);
    checkSame (files::readDrum (text, "t").drum, file.drum);
    CHECK (files::readQuantity ("14.5in", files::Quantity::length, { 0.1, 1.5 }, "f") == 14.5 * 0.0254);
}

TEST_CASE ("Drum files, check() and help texts have the limits of the table of numbers", "[drum-file]")
{
    const auto fileWith = [] (double density)
    {
        return "{ \"format\": \"snarewright-drum\", \"version\": 1, \"diameter_in\": 14, \"depth_in\": 5, \"lugs\": 8, "
               "\"batter\": \"10mil\", "
               "\"resonant\": \"3mil\", \"air\": { \"density_kg_per_m3\": " +
               modal::asText (density) + " } }";
    };
    const auto& number = numberOf (&Air::density);
    DrumSpec drum;

    for (const double allowed : { number.low, number.high })
    {
        drum.air.density = allowed;
        CHECK_NOTHROW (check (drum));
        CHECK_NOTHROW (files::readDrum (fileWith (allowed), "t"));
    }

    for (const double refused : { number.low - 0.1, number.high + 0.1 })
    {
        drum.air.density = refused;
        CHECK_THROWS_AS (check (drum), InputError);
        CHECK_THROWS_AS (files::readDrum (fileWith (refused), "t"), InputError);
    }

    CHECK (files::limitsText (&Air::density) == "0 to 20 kg/m3");
    CHECK (files::limitsText (&Shell::thickness) == "0.5 to 30 mm");
    CHECK (files::limitsText (lugCount) == "4 to 16");
}

namespace
{
/** Names and limits of numbers whose line is missing in the description of the format. */
template <class Owner>
std::string missingLines (const std::vector<std::string>& lines)
{
    std::string missing;

    for (const auto& number : numbersOf<Owner>)
    {
        const auto limits = files::limitsText (number.dimension, files::limitsOf (number));
        const auto key = std::string ("`") + number.name;
        const auto isIt = [&] (const std::string& line)
        { return line.find (key) != line.npos && line.find (limits) != line.npos; };

        if (std::none_of (lines.begin(), lines.end(), isIt))
            missing += number.name + (": " + limits) + "; ";
    }

    return missing;
}
} // namespace

TEST_CASE ("The description of the format lists every number with its limits", "[drum-file]")
{
    std::ifstream file (SNAREWRIGHT_FORMAT);
    std::vector<std::string> lines;

    for (std::string line; std::getline (file, line);)
        lines.push_back (line);

    CHECK (missingLines<DrumSpec> (lines) == "");
    CHECK (missingLines<HeadConstruction> (lines) == "");
    CHECK (missingLines<Vent> (lines) == "");
    CHECK (missingLines<Shell> (lines) == "");
    CHECK (missingLines<Weather> (lines) == "");
    CHECK (missingLines<Air> (lines) == "");
    CHECK (missingLines<MufflingItem> (lines) == "");
    CHECK (missingLines<WireSpec> (lines) == "");
    CHECK (missingLines<StickSpec> (lines) == "");
    CHECK (missingLines<place::Place> (lines) == "");
    CHECK (missingLines<ConcertPitch> (lines) == "");
    CHECK (missingLines<Interval> (lines) == "");
}

TEST_CASE ("A place survives a round trip, is known by name, and is refused where it cannot be", "[drum-file]")
{
    auto file = oddDrum();
    CHECK_FALSE (files::readDrum (files::writeDrum (file), "t").place);

    for (const auto& preset : files::placePresets())
    {
        file.place = preset.part;
        const auto again = files::readDrum (files::writeDrum (file), "t").place;
        REQUIRE (again);
        CHECK (again->name == preset.description);
        CHECK (again->kind == preset.part.kind);
        CHECK (again->times == preset.part.times);
        CHECK (again->weather.temperature == preset.part.weather.temperature);
        for (const auto& number : modal::numbersOf<place::Place>)
            CHECK ((*again).*number.member == preset.part.*number.member);
    }

    const auto fieldOf = [] (const std::string& place)
    {
        try
        {
            files::readPlace (files::parseJson (place, "t"), "t: place");
        }
        catch (const InputError& e)
        {
            return e.field();
        }
        return std::string();
    };
    CHECK (fieldOf (R"("club")") == "");
    CHECK (fieldOf (R"("pub")") == "t: place");
    CHECK (fieldOf (R"({ "kind": "room" })") == "t: place.reverberation_s");
    CHECK (fieldOf (R"({ "reverberation_s": [1, 1] })") == "t: place.reverberation_s");
    CHECK (fieldOf (R"({ "reverberation_s": [1, 1, 1, 1, 1, 1, 9] })") == "t: place.reverberation at 8000 Hz");
    CHECK (fieldOf (R"({ "reverberation_s": [1, 1, 1, 1, 1, 1, 0] })") == "t: place.reverberation_s[6]");
    CHECK (fieldOf (R"({ "kind": "open air", "volume_m3": 1 })") == "t: place.volume_m3");
}

TEST_CASE ("Air without weather, a vacuum and a missing vent survive a round trip", "[drum-file]")
{
    auto file = oddDrum();
    file.weather.reset();
    file.drum.air.density = 1.1234567890123;
    checkSame (files::readDrum (files::writeDrum (file), "t").drum, file.drum);

    file.drum.air = Air::vacuum();
    file.drum.vent.diameter = 0.0;
    const auto again = files::readDrum (files::writeDrum (file), "t").drum;
    CHECK (again.air.isVacuum());
    CHECK (again.vent.diameter == 0.0);
}

TEST_CASE ("A kettle and an open drum survive a round trip", "[drum-file]")
{
    for (const auto bottom : { Bottom::closed, Bottom::open })
    {
        auto file = oddDrum();
        file.drum.bottom = bottom;
        file.tunings = { tuningOf ("t", ByTapNotes{ 150.0, 0.0 }) };
        const auto again = files::readDrum (files::writeDrum (file), "t");
        CHECK (again.drum.bottom == bottom);
        CHECK (std::get<ByTapNotes> (again.tunings.at (0).target).batter == 150.0);
    }
}

TEST_CASE ("A file may mix units", "[drum-file]")
{
    const auto drumOf = [] (const std::string& size)
    {
        return files::readDrum (R"({ "format": "snarewright-drum", "version": 1, "lugs": 10, "batter": { "thickness_mil": 10 },
                                     "resonant": { "thickness_um": 76.2 }, )" +
                                    size + " }",
                                "t")
            .drum;
    };
    const auto inches = drumOf (R"("diameter_in": 14, "depth_in": 5.5)");
    const auto millimetres = drumOf (R"("diameter_mm": 355.6, "depth_m": 0.1397)");

    // The inch is 25.4 mm exactly (NIST SP 811).
    CHECK (inches.diameter == Approx (0.3556).epsilon (1e-15));
    CHECK (millimetres.diameter == Approx (inches.diameter).epsilon (1e-15));
    CHECK (millimetres.depth == Approx (inches.depth).epsilon (1e-15));
    CHECK (inches.resonant.plyThickness == Approx (3 * 25.4e-6).epsilon (1e-14));
}

TEST_CASE ("Notes of a file follow its concert pitch", "[drum-file]")
{
    // ISO 16: A4 = 440 Hz. A3 is an octave below A4.
    CHECK (std::get<ByTapNotes> (onlyTuningOf (R"({ "batter": { "tap_note": "A3" }, "interval": "P8" })").target).batter ==
           Approx (220.0));
    const auto at442 = onlyTuningOf (R"({ "concert_pitch_hz": 442, "batter": { "tap_note": "A3" }, "interval": "P8" })");
    CHECK (std::get<ByTapNotes> (at442.target).batter == Approx (221.0));
    CHECK (std::get<ByTapNotes> (at442.target).resonant == Approx (442.0));
}

TEST_CASE ("A concert pitch is written in hertz, and a shell may be its material alone", "[drum-file]")
{
    const auto file = files::readDrum (std::string (files::findDrumPreset ("maple-14x5")->text), "preset");
    CHECK (files::writeDrum (file).find ("\"concert_pitch_hz\": 440") != std::string::npos);

    auto text = files::writeDrum (file);
    const auto begin = text.find ("\"shell\": {"), end = text.find ('}', begin);
    REQUIRE (begin != std::string::npos);
    text.replace (begin, end + 1 - begin, "\"shell\": \"maple\"");
    CHECK (files::readDrum (text, "text").drum.shell.material == "maple");
    CHECK_THROWS_AS (files::readDrum (text.replace (text.find ("\"shell\": \"maple\""), 16, "\"shell\": \"glass\""), "text"),
                     InputError);
}

TEST_CASE ("Options of a tuning replace what they contradict", "[drum-file]")
{
    files::TuningRequest file;
    file.batterNote = 200.0;
    file.resonantNote = 270.0;

    SECTION ("an interval replaces the resonant note")
    {
        files::TuningRequest over;
        over.interval = Interval{ 12.0 };
        file.overrideWith (over);
        CHECK (std::get<ByTapNotes> (files::assemble (file, {}, "t").target).resonant == Approx (400.0));
    }

    SECTION ("a drum note replaces both heads' notes")
    {
        files::TuningRequest over;
        over.drumNote = 150.0;
        over.interval = Interval{ 5.0 };
        file.overrideWith (over);
        CHECK (std::get<ByDrumNote> (files::assemble (file, {}, "t").target).drumNote == 150.0);
    }

    SECTION ("a drum note keeps the head that is given with it, and drops an interval of before")
    {
        files::TuningRequest over, withInterval;
        over.drumNote = 150.0;
        over.batterNote = 210.0;
        withInterval.drumNote = 140.0;
        withInterval.interval = Interval{ 5.0 };

        for (auto before : { file, withInterval })
        {
            before.overrideWith (over);
            const auto held = std::get<ByDrumNoteAndHead> (files::assemble (before, {}, "t").target);
            CHECK (held.drumNote == 150.0);
            CHECK (held.held == HeadSide::batter);
            CHECK (held.heldNote == 210.0);
        }
    }

    SECTION ("one tension beside the other head's note is refused")
    {
        files::TuningRequest over;
        over.batterTension = 2000.0;
        file.overrideWith (over);
        CHECK_THROWS_AS (files::assemble (file, {}, "t"), InputError);
    }
}

TEST_CASE ("Every preset reads, round-trips and solves", "[drum-file]")
{
    REQUIRE (files::drumPresets().size() >= 5);

    for (const auto& preset : files::drumPresets())
    {
        CAPTURE (preset.name);
        const auto file = files::openDrum (preset.name);
        CHECK_FALSE (file.drum.name.empty());
        REQUIRE_FALSE (file.tunings.empty());
        checkSame (files::readDrum (files::writeDrum (file), "t").drum, file.drum);

        for (const auto& tuning : file.tunings)
        {
            CAPTURE (tuning.name);
            const auto tensions = tensionsFor (file.drum, tuning);
            CHECK (tensions.batter < yieldTension (file.drum.batter));
            CHECK (drumNote (solve (file.drum, tensions, { .highestFrequency = 500.0 })) > 50.0);
        }
    }
}

TEST_CASE ("A drum file can name every head and every set of wires of the presets", "[drum-file]")
{
    REQUIRE (files::headPresets().size() >= 5);
    REQUIRE (files::wirePresets().size() >= 3);

    for (const auto& head : files::headPresets())
        for (const auto& wires : files::wirePresets())
        {
            CAPTURE (head.name, wires.name);
            CHECK_FALSE (head.description.empty());
            CHECK_FALSE (wires.description.empty());
            const auto file = files::readDrum (R"({ "format": "snarewright-drum", "version": 1, "diameter_in": 14, "depth_in": 5,
                                                    "lugs": 10, "resonant": "snare-side-3mil", "batter": ")" +
                                                   head.name + R"(", "wires": ")" + wires.name + "\" }",
                                               "t");
            checkSame (file.drum.batter, head.part);
            CHECK (file.wires.strands == wires.part.strands);
            CHECK (file.wires.strandTension == wires.part.strandTension);
            CHECK (file.drum.resonant.plyThickness == Approx (3 * 25.4e-6).epsilon (1e-12)); // the mil is 25.4 µm exactly
        }
}

TEST_CASE ("An unknown head or set of wires is refused with the known names", "[drum-file]")
{
    const auto refusal = [] (const std::string& head, const std::string& wires)
    {
        try
        {
            files::readDrum (R"({ "format": "snarewright-drum", "version": 1, "diameter_in": 14, "depth_in": 5, "lugs": 10,
                                  "resonant": "3mil", "batter": ")" +
                                 head + R"(", "wires": ")" + wires + "\" }",
                             "t");
            return std::string();
        }
        catch (const InputError& e)
        {
            return std::string (e.what());
        }
    };

    CHECK (refusal ("single-9mil", "strands-20").find ("single-10mil") != std::string::npos);
    CHECK (refusal ("single-10mil", "strands-21").find ("strands-20") != std::string::npos);
    CHECK (refusal ("single-10mil dot 100mm 7mil", "strands-20").empty());
}

TEST_CASE ("The example of a lesson in the description reads as described", "[lesson-file]")
{
    std::ifstream file (SNAREWRIGHT_FORMAT);
    std::string example;

    for (std::string line; std::getline (file, line);)
        if (line.starts_with ("    ") && (line.find ("snarewright-lesson") != std::string::npos || ! example.empty()))
            example += line + "\n";
        else if (! example.empty())
            break;

    const auto lesson = files::readLesson (example, "example");
    REQUIRE (lesson.steps.size() == 5);
    CHECK (lesson.beatsPerMinute == 96.0);
    CHECK (lesson.steps[0].listenFor == "How long the drum rings.");

    // Wires off in one step only, and nothing else about them changed.
    const auto usual = files::openDrum ("maple-14x5").wires;
    CHECK_FALSE (lesson.steps[1].drum.wires.on);
    CHECK (lesson.steps[1].drum.wires.strands == usual.strands);
    CHECK (lesson.steps[2].drum.wires.on);
    CHECK (lesson.steps[2].drum.drum.muffling.size() == 1);
    CHECK (lesson.steps[3].drum.drum.muffling.empty());
    CHECK (lesson.steps[3].drum.wires.strandTension == 2.0);
    CHECK (lesson.steps[3].strokes != lesson.steps[0].strokes);
    CHECK (lesson.steps[4].drum.drum.shell.material == "birch");

    // A fourth above G3 is C4, MIDI 60 (ISO 16: 261.63 Hz); A3 is an octave below A4 = 440 Hz.
    CHECK (std::get<ByTapNotes> (lesson.steps[0].tuning.target).resonant == Approx (261.63).margin (0.01));
    CHECK (std::get<ByTapNotes> (lesson.steps[4].tuning.target).batter == Approx (220.0));
}

TEST_CASE ("A fault in a lesson is named by file, step and field", "[lesson-file]")
{
    const auto faultOf = [] (const std::string& lesson, const std::string& step)
    {
        const auto text = R"({ "format": "snarewright-lesson", "version": 1, "name": "n", )" + lesson +
                          R"( "steps": [ { "name": "a", "tuning": { "batter": { "tap_note": "G3" }, "interval": "P4" } }, { )" +
                          step + " } ] }";

        try
        {
            files::readLesson (text, "mine.json");
        }
        catch (const InputError& e)
        {
            return std::string (e.what());
        }

        return std::string();
    };
    const std::string whole = R"("drum": "maple-14x5", "strokes": "o6", )";
    const std::string good = R"("name": "b", "tuning": { "batter": { "tap_note": "A3" }, "interval": "P4" })";
    CHECK (faultOf (whole, good) == "");

    struct Case
    {
        std::string lesson, step, message;
    };
    const Case cases[] = {
        { whole, R"("name": "b")", "mine.json, step 2: tuning is missing" },
        { whole, R"("name": "b", "tuning": { "batter": { "tap_note": "H3" }, "interval": "P4" })",
          "mine.json, step 2: tuning.batter.tap_note: \"H3\" cannot be used" },
        { whole, good + R"(, "wires": { "strands": 900 })", "mine.json, step 2: wires.strands: number 900 cannot be used" },
        { whole, good + R"(, "muffling": [ { "mass_g": -3 } ])", "mine.json, step 2: muffling[0].mass_g" },
        { whole, good + R"(, "muffling": [ { "distance_mm": 700 } ])", "mine.json, step 2: muffling 1 distance" },
        { whole, good + R"(, "drum": "no-such-drum")", "mine.json, step 2: drum: \"no-such-drum\" cannot be used" },
        { whole, good + R"(, "strokes": 7)", "mine.json, step 2: strokes: number 7 cannot be used" },
        { whole, good + R"(, "tunning": 7)", "mine.json, step 2: tunning" },
        { R"("drum": "maple-14x5", "strokes": "o6", "wires": 3, )", good, "mine.json: wires: number 3 cannot be used" },
        { R"("strokes": "o6", )", good, "mine.json, step 1: drum is missing" },
    };

    for (const auto& c : cases)
    {
        CAPTURE (c.message);
        CHECK (faultOf (c.lesson, c.step).substr (0, c.message.size()) == c.message);
    }

    CHECK_THROWS_AS (files::readLesson (R"({ "format": "snarewright-lesson", "version": 1, "name": "n" })", "x"), InputError);
}

TEST_CASE ("Microphones, pattern and the window's part come back from a written drum file")
{
    auto file = files::openDrum ("maple-14x5");
    file.microphones = files::MicrophoneSpecs{
        { { 0.1, 0.05, 0.09, -1.5, -0.3, false }, { -0.08, 0.04, -0.23, -60.0, 0.25, true }, { 1.3, 0.8, 1.2, 4.0, 0.0, false } }
    };
    file.pattern = files::PatternSpec{ "o8.. o2.r9", 96.5, 3 };
    file.window = files::Json{ { "kept", "as it is" } };

    const auto read = files::readDrum (files::writeDrum (file), "written");
    REQUIRE (read.microphones);
    REQUIRE (read.pattern);

    for (std::size_t i = 0; i < 3; ++i)
    {
        const auto &was = (*file.microphones)[i], &is = (*read.microphones)[i];
        CHECK (is.x == was.x);
        CHECK (is.y == was.y);
        CHECK (is.z == was.z);
        CHECK (is.level == was.level);
        CHECK (is.pan == was.pan);
        CHECK (is.isInverted == was.isInverted);
    }

    CHECK (read.pattern->strokes == file.pattern->strokes);
    CHECK (read.pattern->tempo == file.pattern->tempo);
    CHECK (read.pattern->stepsPerBeat == file.pattern->stepsPerBeat);
    CHECK (read.window == file.window);
    CHECK (files::writeDrum (read) == files::writeDrum (file));
}
