#include "RunProgram.h"

#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

#include <algorithm>
#include <cmath>
#include <regex>
#include <sstream>

using files::Json;

namespace
{
Json jsonOf (std::vector<std::string> arguments)
{
    arguments.emplace_back ("--json");
    const auto run = runProgram (arguments);
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    return files::parseJson (run.output, "output");
}

/** A number by its path through objects. */
double number (const Json& json, std::initializer_list<const char*> path)
{
    const auto* at = &json;

    for (const auto* key : path)
    {
        CAPTURE (key);
        at = &at->at (key);
    }

    return at->get<double>();
}

const std::vector<std::string> usualDrum{ "predict",  "--diameter",    "14in",       "--depth",    "5.5in",
                                          "--batter", "10mil",         "--resonant", "3mil",       "--lugs",
                                          "8",        "--batter-note", "G#3",        "--interval", "P4" };
} // namespace

TEST_CASE ("A prediction as JSON has the notes that were asked for", "[predict]")
{
    const auto p = jsonOf (usualDrum);

    // Equal temperament on A4 = 440 Hz (ISO 16): G#3 = 207.652 Hz, C#4 a fourth above = 277.183 Hz.
    CHECK (number (p, { "heads", "batter", "tap_note_hz" }) == Approx (207.652).margin (0.005));
    CHECK (number (p, { "heads", "resonant", "tap_note_hz" }) == Approx (277.183).margin (0.005));
    CHECK (p.at ("heads").at ("batter").at ("tap_note") == "G#3");
    CHECK (p.at ("interval") == "P4");
    CHECK (number (p, { "interval_semitones" }) == Approx (5.0).margin (1e-3));

    // Statics, by hand: stress = T/h for heads 254 and 76.2 µm thick; force per rod = 2πaT/lugs.
    const auto tension = number (p, { "heads", "batter", "tension_n_per_m" });
    CHECK (number (p, { "heads", "batter", "stress_mpa" }) == Approx (tension / 254e-6 / 1e6).epsilon (1e-9));
    CHECK (number (p, { "heads", "batter", "force_per_rod_n" }) ==
           Approx (3.14159265358979 * 0.3556 * tension / 8).epsilon (1e-9));
    CHECK (number (p, { "heads", "resonant", "stress_mpa" }) ==
           Approx (number (p, { "heads", "resonant", "tension_n_per_m" }) / 76.2e-6 / 1e6).epsilon (1e-9));

    const auto& modes = p.at ("modes");
    REQUIRE (modes.size() > 20);
    double last = 0.0;

    for (const auto& mode : modes)
    {
        const auto frequency = number (mode, { "frequency_hz" });
        CHECK (frequency >= last);
        last = frequency;
        CHECK (number (mode, { "batter_share" }) + number (mode, { "resonant_share" }) + number (mode, { "air_share" }) ==
               Approx (1.0).margin (1e-9));
        CHECK (number (mode, { "ratio" }) == Approx (frequency / number (p, { "drum_note_hz" })).epsilon (1e-12));

        double decay = 0.0;
        for (const auto& [cause, rate] : mode.at ("decay_per_s").items())
            decay += rate.get<double>();

        // 60 dB is a factor of 1000 in amplitude.
        CHECK (number (mode, { "t60_s" }) == Approx (std::log (1000.0) / decay).epsilon (1e-9));
    }

    CHECK (last <= number (p, { "highest_frequency_hz" }));
    CHECK (number (p, { "pairs", "breathing", "lower_hz" }) == number (p, { "drum_note_hz" }));
    CHECK (number (p, { "drum", "diameter_in" }) == 14.0);
}

TEST_CASE ("A tension given is the tension predicted, and tuning by note inverts it", "[predict]")
{
    const auto byTension = jsonOf ({ "predict", "maple-14x5", "--batter-tension", "2500", "--resonant-tension", "2200N/m" });
    CHECK (number (byTension, { "heads", "batter", "tension_n_per_m" }) == 2500.0);
    CHECK (number (byTension, { "heads", "resonant", "tension_n_per_m" }) == 2200.0);

    const auto hertz = [&] (const char* head) {
        return std::to_string (number (byTension, { "heads", head, "tap_note_hz" })) + "Hz";
    };
    const auto byNote =
        jsonOf ({ "predict", "maple-14x5", "--batter-note", hertz ("batter"), "--resonant-note", hertz ("resonant") });
    CHECK (number (byNote, { "heads", "batter", "tension_n_per_m" }) == Approx (2500.0).epsilon (1e-6));
    CHECK (number (byNote, { "heads", "resonant", "tension_n_per_m" }) == Approx (2200.0).epsilon (1e-6));

    const auto note = std::to_string (number (byTension, { "drum_note_hz" })) + "Hz";
    const auto interval = std::to_string (number (byTension, { "interval_semitones" })) + " st";
    const auto byDrumNote = jsonOf ({ "predict", "maple-14x5", "--drum-note", note, "--interval", interval });
    CHECK (number (byDrumNote, { "heads", "batter", "tension_n_per_m" }) == Approx (2500.0).epsilon (1e-3));
}

TEST_CASE ("With one head held a drum note gives the other head", "[predict]")
{
    // The forward prediction of both heads is the reference: from its drum note and either head the other comes back.
    const std::vector<std::string> pairs[] = { { "G#3", "C#4" }, { "D4", "D4" }, { "C4", "G3" } };

    for (const auto& pair : pairs)
    {
        const auto both = jsonOf ({ "predict", "maple-14x5", "--batter-note", pair[0], "--resonant-note", pair[1] });
        const auto note = std::to_string (number (both, { "drum_note_hz" })) + "Hz";
        CAPTURE (pair[0], pair[1], note);

        for (const auto& [option, held, solved] : { std::tuple{ "--resonant-note", pair[1], "batter" },
                                                    { "--batter-note", pair[0], "resonant" } })
        {
            const auto found = jsonOf ({ "predict", "maple-14x5", "--drum-note", note, option, held });
            // JSON carries the drum note to 1e-6 Hz.
            CHECK (number (found, { "heads", solved, "tap_note_hz" }) ==
                   Approx (number (both, { "heads", solved, "tap_note_hz" })).epsilon (1.0e-5));
        }
    }
}

TEST_CASE ("In a vacuum a head has the frequencies of the ideal membrane", "[predict]")
{
    // f = j01/(2πa)·√(T/σ), j01 = 2.404826 and (1,1)/(0,1) = 1.5933 (Abramowitz & Stegun, table 9.5).
    const auto p = jsonOf ({ "predict", "--diameter", "14in", "--batter", "0.353kg/m2", "--bottom", "open", "--air", "none",
                             "--batter-tension", "3000" });
    const auto expected = 2.404826 / (2.0 * 3.14159265358979 * 0.1778) * std::sqrt (3000.0 / 0.353);
    CHECK (number (p, { "drum_note_hz" }) == Approx (expected).epsilon (1e-6));
    CHECK (number (p.at ("modes").at (1), { "ratio" }) == Approx (1.5933).margin (5e-5));
}

TEST_CASE ("A loose lug splits the pairs of an even drum", "[predict]")
{
    const auto even = jsonOf (usualDrum);
    auto words = usualDrum;
    words.insert (words.end(), { "--batter-lugs", "0,0,-60,0,0,0,0,0" });
    const auto loose = jsonOf (words);

    // An even drum lists its two (1,1) modes as one entry; uneven lugs split them (Worland 2010).
    CHECK (number (even.at ("modes").at (2), { "degenerate" }) == 2.0);
    CHECK (loose.at ("modes").size() > even.at ("modes").size());
    CHECK (loose.at ("tuning").at ("batter_lugs_cents").size() == 8);
}

TEST_CASE ("The ring is given with the wires off and, as played, with them on", "[predict]")
{
    const auto p = jsonOf (usualDrum);
    CHECK (number (p, { "drum_note_t60_wires_on_s" }) < number (p, { "drum_note_t60_s" }));

    const auto text = runProgram (usualDrum).output;
    CHECK (contains (text, "PREDICTED RESULT"));
    CHECK (std::regex_search (text, std::regex (R"(DRUM NOTE .* ring \d\.\d\d s to -60 dB, wires off; \d\.\d\d s, wires on)")));

    auto off = usualDrum;
    off.insert (off.end(), { "--wires", "off" });
    CHECK_FALSE (jsonOf (off).contains ("drum_note_t60_wires_on_s"));
    CHECK_FALSE (contains (runProgram (off).output, "wires on"));
}

TEST_CASE ("The air's own modes are listed on request", "[predict]")
{
    const auto isListed = [] (const std::vector<std::string>& arguments)
    { return std::regex_search (runProgram (arguments).output, std::regex (R"( air\n)")); };
    CHECK_FALSE (isListed (usualDrum));
    CHECK_FALSE (isListed ({ "modes", "maple-14x5" }));
    CHECK (isListed ({ "modes", "maple-14x5", "--all" }));
}

TEST_CASE ("A patch lowers the drum note and takes energy from the modes", "[predict]")
{
    auto words = usualDrum;
    words.insert (words.end(), { "--patch", "40mm:6g:100mm" });
    const auto muffled = jsonOf (words), plain = jsonOf (usualDrum);

    // Added mass lowers every frequency (Rayleigh's theorem on constraints and inertia).
    CHECK (number (muffled, { "drum_note_hz" }) < number (plain, { "drum_note_hz" }));

    for (std::size_t i = 1; i < 5; ++i)
        CHECK (number (muffled.at ("modes").at (i), { "decay_per_s", "muffling" }) > 0.0);

    for (const auto& mode : plain.at ("modes"))
        CHECK (number (mode, { "decay_per_s", "muffling" }) == 0.0);
}

TEST_CASE ("A kettle has no resonant head", "[predict]")
{
    const auto p = jsonOf ({ "predict", "kettle-26" });
    CHECK_FALSE (p.at ("heads").contains ("resonant"));
    CHECK_FALSE (p.contains ("interval"));
    CHECK (number (p, { "heads", "batter", "tension_n_per_m" }) == 3990.0);
}

TEST_CASE ("Table and JSON agree", "[predict]")
{
    const auto table = runProgram (usualDrum).output;

    for (const std::string part :
         { "DRUM NOTE", "G#3", "207.7 Hz", "C#4", "277.2 Hz", "perfect fourth", "(0,1)", "FORCE PER ROD" })
    {
        CAPTURE (part);
        CHECK (contains (table, part));
    }
}

TEST_CASE ("A head near its yield strength gives a caution", "[predict]")
{
    const auto run = runProgram ({ "predict", "maple-14x5", "--batter-tension", "2000", "--resonant-tension", "6000" });
    REQUIRE (run.status == 0);
    CHECK (contains (run.output, "CAUTION  The resonant head is at"));
    CHECK_FALSE (contains (runProgram (usualDrum).output, "CAUTION"));
}

TEST_CASE ("A comparison gives the change on each head", "[compare]")
{
    const auto c =
        jsonOf ({ "compare", "maple-14x5", "--batter-note", "G#3", "--resonant-note", "C#4", "vs", "--batter-note", "F#3" });
    const auto& tunings = c.at ("tunings");
    REQUIRE (tunings.size() == 2);

    // Common practice, no source: the batter a whole tone down with the resonant head held turns a fourth into a fifth.
    CHECK (tunings[0].at ("prediction").at ("interval") == "P4");
    CHECK (tunings[1].at ("prediction").at ("interval") == "P5");
    CHECK (number (tunings[1], { "change", "batter", "tap_note_semitones" }) == Approx (-2.0).margin (1e-3));
    CHECK (number (tunings[1], { "change", "resonant", "tap_note_semitones" }) == Approx (0.0).margin (1e-3));

    const auto before = number (tunings[0], { "prediction", "heads", "batter", "tension_n_per_m" });
    const auto after = number (tunings[1], { "prediction", "heads", "batter", "tension_n_per_m" });
    CHECK (number (tunings[1], { "change", "batter", "tension_percent" }) ==
           Approx (100.0 * (after / before - 1.0)).epsilon (1e-9));

    const auto table =
        runProgram ({ "compare", "maple-14x5", "--batter-note", "G#3", "--resonant-note", "C#4", "vs", "--batter-note", "F#3" });
    CHECK (contains (table.output, "-2.00 semitones"));
    CHECK (contains (table.output, "held"));
}

TEST_CASE ("A drum alone compares all its tunings", "[compare]")
{
    CHECK (jsonOf ({ "compare", "maple-14x5" }).at ("tunings").size() == 3);
    CHECK (jsonOf ({ "compare", "maple-14x5", "brass-13x5.5" }).at ("tunings").size() == 5);
}

TEST_CASE ("The CSV of the modes has the same number of fields in every row", "[modes]")
{
    const auto csv = runProgram ({ "modes", "maple-14x5", "--csv" }).output;
    std::size_t rows = 0, commas = 0;

    for (std::size_t at = 0, end; (end = csv.find ("\r\n", at)) != std::string::npos; at = end + 2, ++rows)
    {
        const auto row = csv.substr (at, end - at);
        const auto count = static_cast<std::size_t> (std::count (row.begin(), row.end(), ','));
        commas = rows == 0 ? count : commas;
        CHECK (count == commas);
    }

    const auto json = runProgram ({ "modes", "maple-14x5", "--json" }).output;
    CHECK (rows == files::parseJson (json, "modes").size() + 1);
}

TEST_CASE ("The picture's bars for the tap notes stand a note's steps apart", "[picture]")
{
    const TemporaryFolder folder;
    // How far the resonant head's bar stands over the batter's, in the picture's unit. A tap note's bar is the only line 4 wide.
    const auto distance = [&] (const std::string& interval)
    {
        REQUIRE (runProgram ({ "predict", "maple-14x5", "--tuning", "1", "--interval", interval, "--picture", "notes.svg" },
                             folder.path())
                     .status == 0);
        const auto svg = readBytes (folder.path() / "notes.svg");
        CHECK (contains (svg, "</svg>"));
        CHECK_FALSE (contains (svg, "nan"));

        std::vector<double> heights;
        const std::regex bar ("<path[^>]*stroke-width[:=]\"?4[;\"][^>]* d=\"M [0-9.]+ ([0-9.]+) L");
        for (std::sregex_iterator found (svg.begin(), svg.end(), bar), end; found != end; ++found)
            heights.push_back (std::stod ((*found)[1]));

        REQUIRE (heights.size() == 2);
        return heights[0] - heights[1];
    };

    // Equal temperament (ISO 16): 4 semitones in a major third, 7 in a fifth, 12 in an octave.
    const auto octave = distance ("P8");
    CHECK (octave > 0.0);
    CHECK (distance ("M3") == Approx (4.0 / 12.0 * octave).epsilon (0.01));
    CHECK (distance ("P5") == Approx (7.0 / 12.0 * octave).epsilon (0.01));

    const std::vector<std::pair<std::string, std::string>> formats{ { "notes.pdf", "%PDF-" }, { "notes.png", "\x89PNG" } };
    for (const auto& [file, start] : formats)
    {
        CAPTURE (file);
        REQUIRE (runProgram ({ "compare", "maple-14x5", "--picture", file }, folder.path()).status == 0);
        CHECK (readBytes (folder.path() / file).starts_with (start));
    }
}

TEST_CASE ("A shown preset is a drum file with the same prediction", "[presets]")
{
    const TemporaryFolder folder;
    folder.write ("mine.json", runProgram ({ "presets", "--show", "maple-14x5" }).output);
    const auto mine = runProgram ({ "predict", "mine.json" }, folder.path());
    CHECK (mine.status == 0);
    CHECK (mine.output == runProgram ({ "predict", "maple-14x5" }).output);
}

TEST_CASE ("Every preset is shown as it was written", "[presets]")
{
    CHECK (runProgram ({ "presets", "--show", "maple-14x5" }).output == readBytes (SNAREWRIGHT_PRESETS "/maple-14x5.json"));
    CHECK (runProgram ({ "presets", "--show", "single-10mil" }).output ==
           readBytes (SNAREWRIGHT_PRESETS "/heads/single-10mil.json"));
    CHECK (runProgram ({ "presets", "--show", "strands-20" }).output == readBytes (SNAREWRIGHT_PRESETS "/wires/strands-20.json"));
    CHECK (runProgram ({ "presets", "--show", "hear-an-interval" }).output ==
           readBytes (SNAREWRIGHT_PRESETS "/lessons/hear-an-interval.json"));
}

TEST_CASE ("A file's notes follow the concert pitch of the command line", "[predict]")
{
    // G#3 is 13 semitones below A4 (ISO 16).
    const auto note = [] (std::vector<std::string> arguments) {
        return number (jsonOf (arguments), { "heads", "batter", "tap_note_hz" });
    };
    const double below = std::exp2 (-13.0 / 12.0);
    CHECK (note ({ "predict", "maple-14x5" }) == Approx (440.0 * below).epsilon (1.0e-6));
    CHECK (note ({ "predict", "maple-14x5", "--concert-pitch", "442" }) == Approx (442.0 * below).epsilon (1.0e-6));
}

TEST_CASE ("A drum without a name shows its size once", "[predict]")
{
    const auto text = runProgram ({ "predict", "--diameter", "10cm", "--batter-note", "A4", "--interval", "P4" }).output;
    CHECK (text.starts_with ("3.937 x 5.5 in, 10 lugs, batter 10mil, resonant 3mil\n"));
}

TEST_CASE ("A mode that moves one head names it", "[modes]")
{
    const auto table = runProgram ({ "modes", "maple-14x5" }).output;
    CHECK_FALSE (contains (table, "one head"));

    // The lowest (2,1) has most of its energy in the batter head, the next in the resonant head, by the table's own shares.
    std::istringstream rows (table);
    std::vector<std::string> seen;

    for (std::string row; std::getline (rows, row);)
        if (row.find ("(2,1)") != std::string::npos)
            seen.push_back (row);

    REQUIRE (seen.size() >= 2);
    CHECK (seen[0].ends_with ("batter"));
    CHECK (seen[1].ends_with ("resonant"));
}

TEST_CASE ("A drum file's other tunings do not matter to the one that is predicted", "[predict]")
{
    // The first tuning is a fourth, the second a third.
    const TemporaryFolder folder;
    CHECK (runProgram ({ "predict", "maple-14x5", "--interval-limits", "P4:P4" }, folder.path()).status == 0);
    CHECK (runProgram ({ "predict", "maple-14x5", "--tuning", "2", "--interval-limits", "P4:P4" }, folder.path()).status == 2);
}

TEST_CASE ("Predictions warn of slack heads", "[predict]")
{
    const TemporaryFolder folder;
    const auto cautionOf = [&] (const char* note) {
        return runProgram ({ "predict", "maple-14x5", "--batter-note", note, "--interval", "P4" }, folder.path()).output;
    };
    CHECK (cautionOf ("G#1").find ("The batter head is nearly slack") != std::string::npos);
    CHECK (cautionOf ("G#3").find ("slack") == std::string::npos);
}
