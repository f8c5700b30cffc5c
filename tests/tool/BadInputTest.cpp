#include "RunProgram.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include <string>
#include <vector>

namespace
{
const std::string goodDrum = R"({
  "format": "snarewright-drum", "version": 1, "name": "Plain",
  "diameter_in": 14, "depth_in": 5.5, "lugs": 10, "bottom": "head",
  "batter": { "thickness_mil": 10 }, "resonant": { "thickness_mil": 3 },
  "shell": { "material": "maple" }, "air": { "temperature_c": 20 },
  "tunings": [ { "name": "a", "batter": { "tap_note": "G#3" }, "interval": "P4" } ]
})";

/** The good drum with one part replaced. */
std::string drumWith (const std::string& part, const std::string& replacement)
{
    auto text = goodDrum;
    const auto at = text.find (part);
    REQUIRE (at != std::string::npos);
    return text.replace (at, part.size(), replacement);
}

/** What the message must say; all of these, anywhere in it. */
using Said = std::vector<std::string>;

void checkRefused (const std::vector<std::string>& arguments, const Said& said, const TemporaryFolder& folder)
{
    const auto run = runProgram (arguments, folder.path());
    CAPTURE (run.errors);
    CHECK (run.status == 2);
    CHECK (run.output.empty());
    CHECK (run.errors.starts_with ("snarewright: "));
    CHECK (run.errors.find ('\n') == run.errors.size() - 1);

    for (const auto& part : said)
    {
        CAPTURE (part);
        CHECK (contains (run.errors, part));
    }
}
} // namespace

TEST_CASE ("The drum that these tests change is valid", "[bad-input]")
{
    const TemporaryFolder folder;
    folder.write ("drum.json", goodDrum);
    CHECK (runProgram ({ "predict", "drum.json" }, folder.path()).status == 0);
}

TEST_CASE ("A wrong drum file is refused with the field, the value and what is allowed", "[bad-input]")
{
    struct Case
    {
        const char* part;
        const char* replacement;
        Said said;
    };

    const Case cases[] = {
        { "\"diameter_in\": 14", "\"diameter_in\": -14", { "drum.json: diameter_in", "-14 in", "3.937 to 59.06 in" } },
        { "\"diameter_in\": 14", "\"diameter_in\": 0", { "diameter_in", "0 in", "3.937 to 59.06 in" } },
        { "\"diameter_in\": 14", "\"diameter_in\": 1e300", { "diameter_in", "1e+300 in" } },
        { "\"diameter_in\": 14", "\"diameter_in\": 1e999", { "line 3", "overflow", "1e999" } },
        { "\"diameter_in\": 14", "\"diameter_in\": NaN", { "line 3", "invalid literal" } },
        { "\"diameter_in\": 14", "\"diameter_in\": \"14\"", { "diameter_in", "text \"14\"", "a number" } },
        { "\"diameter_in\": 14", "\"diameter_in\": null", { "diameter_in", "null", "a number" } },
        { "\"diameter_in\": 14", "\"diameter_in\": [14]", { "diameter_in", "a list", "a number" } },
        { "\"diameter_in\": 14", "\"diameter_ft\": 1", { "diameter_ft", "unknown key", "perhaps diameter_" } },
        { "\"diameter_in\": 14", "\"diameter\": 14", { "diameter", "unknown key", "perhaps diameter_in" } },
        { "\"diameter_in\": 14", "\"diameter_in\": 14, \"diameter_mm\": 355.6", { "diameter_mm", "diameter_in is given too" } },
        { "\"diameter_in\": 14", "\"diameter_in\": 14, \"diameter_in\": 13", { "diameter_in", "twice" } },
        { "\"diameter_in\": 14,", "", { "drum.json: diameter", "missing" } },
        { "\"depth_in\": 5.5", "\"depth_in\": 500", { "depth_in", "500 in", "0.7874 to 78.74 in" } },
        { "\"depth_in\": 5.5", "\"dept_in\": 5.5", { "dept_in", "unknown key", "perhaps depth_in" } },
        { "\"lugs\": 10", "\"lugs\": 3", { "lugs", "number 3", "4 to 16" } },
        { "\"lugs\": 10", "\"lugs\": 8.5", { "lugs", "8.5", "whole number" } },
        { "\"lugs\": 10", "\"lugs\": true", { "lugs", "true", "whole number" } },
        { "\"lugs\": 10,", "", { "lugs", "missing" } },
        { "\"bottom\": \"head\"", "\"bottom\": \"glass\"", { "bottom", "glass", "head, closed or open" } },
        { "\"bottom\": \"head\"", "\"bottom\": 1", { "bottom", "number 1", "a text" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thickness_mil\": 0 }",
          { "batter.thickness_mil", "0 mil", "mil" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thickness_mil\": 100 }",
          { "batter.thickness_mil", "100 mil", "19.69 mil" } },
        { "\"batter\": { \"thickness_mil\": 10 }", "\"batter\": {}", { "batter", "without thickness", "thickness_mil" } },
        { "\"batter\": { \"thickness_mil\": 10 }", "\"batter\": 10", { "batter", "number 10", "an object" } },
        { "\"batter\": { \"thickness_mil\": 10 }", "\"batter\": \"10\"", { "batter", "no unit", "mil" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thickness_mil\": 10, \"plies\": 3 }",
          { "batter.plies", "number 3", "1 to 2" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thickness_mil\": 10, \"dot_diameter_in\": 20, \"dot_thickness_mil\": 7 }",
          { "dot diameter", "0.508 m", "0.3556 m" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thickness_mil\": 10, \"areal_density_kg_per_m2\": 0.3 }",
          { "batter", "a thickness and an areal density", "one of" } },
        { "\"batter\": { \"thickness_mil\": 10 }",
          "\"batter\": { \"thicknes_mil\": 10 }",
          { "batter.thicknes_mil", "unknown key", "perhaps thickness_mil" } },
        { "\"resonant\": { \"thickness_mil\": 3 },", "", { "resonant", "missing", "closed" } },
        { "\"material\": \"maple\"", "\"material\": \"cheese\"", { "shell.material", "cheese", "maple" } },
        { "\"temperature_c\": 20", "\"temperature_c\": 200", { "air.temperature_c", "200 C", "-40 to 60 C" } },
        { "\"temperature_c\": 20", "\"humidity_percent\": -1", { "air.humidity_percent", "-1 %", "0 to 100 %" } },
        { "\"tap_note\": \"G#3\"", "\"tap_note\": \"H3\"", { "tunings[0].batter.tap_note", "H3", "G#3" } },
        { "\"tap_note\": \"G#3\"", "\"tap_note_hz\": 0", { "tunings[0].batter.tap_note_hz", "0 Hz", "Hz" } },
        { "\"tap_note\": \"G#3\"", "\"tension_n_per_m\": -5", { "tunings[0].batter.tension_n_per_m", "-5 N/m", "N/m" } },
        { "\"tap_note\": \"G#3\"",
          "\"tap_note\": \"G#3\", \"tension_n_per_m\": 2000",
          { "tunings[0].batter", "a note and a tension" } },
        { "\"interval\": \"P4\"", "\"interval\": \"P9\"", { "tunings[0].interval", "P9", "P4" } },
        { "\"interval\": \"P4\"", "\"interval_semitones\": 100", { "tunings[0].interval_semitones", "100", "-24 to 24" } },
        { ", \"interval\": \"P4\"", "", { "tunings[0]", "batter note", "interval" } },
        { "\"interval\": \"P4\"",
          "\"interval\": \"P4\", \"batter_lugs_cents\": [0, \"x\"]",
          { "batter_lugs_cents[1]", "text \"x\"" } },
        { "\"lugs\": 10",
          "\"lugs\": 10, \"muffling\": [ { \"mass_kg\": 2 } ]",
          { "muffling[0].mass_kg", "2 kg", "0 to 0.1 kg" } },
        { "\"lugs\": 10",
          "\"lugs\": 10, \"muffling\": [ { \"head\": \"side\" } ]",
          { "muffling[0].head", "side", "batter or resonant" } },
        { "\"version\": 1", "\"version\": 3", { "version", "number 3", "allowed: a whole number, 1 to 2" } },
        { "\"version\": 1,", "", { "version", "missing" } },
        { "\"format\": \"snarewright-drum\"", "\"format\": \"cymbal\"", { "format", "cymbal", "snarewright-drum" } },
        { "\"tunings\": [", "\"tunings\": { \"x\": [", { "drum.json, line 7", "the end of the file" } },
        { "\"name\": \"Plain\"", "\"name\": 5", { "name", "number 5", "a text" } },
        { "\"name\": \"Plain\"", "\"name\": \"\xff\"", { "line 2", "UTF-8" } },
        { "{\n", "", { "line 1", "column 11", "expected end of input" } },
    };

    const TemporaryFolder folder;

    for (const auto& c : cases)
    {
        CAPTURE (c.replacement);
        folder.write ("drum.json", drumWith (c.part, c.replacement));
        checkRefused ({ "predict", "drum.json" }, c.said, folder);
    }
}

TEST_CASE ("A file cut short anywhere is refused", "[bad-input]")
{
    const TemporaryFolder folder;

    for (std::size_t length = 1; length < goodDrum.size(); length += 23)
    {
        CAPTURE (length);
        folder.write ("drum.json", goodDrum.substr (0, length));
        checkRefused ({ "predict", "drum.json" }, { "drum.json", "line" }, folder);
    }
}

TEST_CASE ("Files that hold no drum are refused", "[bad-input]")
{
    const TemporaryFolder folder;
    std::filesystem::create_directory (folder.path() / "folder");
    folder.write ("empty.json", "");
    folder.write ("huge.json", std::string (3 * 1024 * 1024, ' '));
    folder.write ("deep.json", std::string (900000, '['));
    folder.write ("list.json", "[]");
    folder.write ("zeros.json", std::string (100, '\0'));

    checkRefused ({ "predict", "missing.json" }, { "missing.json", "a drum file, or a preset" }, folder);
    checkRefused ({ "predict", "folder" }, { "\"folder\" is a folder" }, folder);
    checkRefused ({ "predict", "empty.json" }, { "\"empty.json\" is empty" }, folder);
    checkRefused ({ "predict", "huge.json" }, { "\"huge.json\" has more than 1 MB" }, folder);
    checkRefused ({ "predict", "deep.json" }, { "deep.json", "levels of brackets" }, folder);
    checkRefused ({ "predict", "list.json" }, { "list.json", "a list", "an object" }, folder);
    checkRefused ({ "predict", "zeros.json" }, { "zeros.json", "line 1" }, folder);
}

TEST_CASE ("A wrong option is refused with the option, the value and what is allowed", "[bad-input]")
{
    struct Case
    {
        std::vector<std::string> options;
        Said said;
    };

    const Case cases[] = {
        { { "--diameter", "14" }, { "--diameter", "\"14\" (no unit)", "in, mm, cm or m" } },
        { { "--diameter", "14parsec" }, { "--diameter", "unknown unit", "in, mm" } },
        { { "--diameter", "-14in" }, { "--diameter", "-14 in", "3.937 to 59.06 in" } },
        { { "--diameter", "14,5in" }, { "--diameter", "a comma", "with a decimal point" } },
        { { "--diameter", "1000" }, { "--diameter", "no unit", "10 to 150 cm" } },
        { { "--diameter", "nan" }, { "--diameter", "\"nan\"", "a number" } },
        { { "--diameter", "" }, { "--diameter", "\"\"", "a number" } },
        { { "--diameter", "1e999in" }, { "--diameter", "inf", "3.937 to 59.06 in" } },
        { { "--diameter" }, { "--diameter has no value; needed: --diameter 14in" } },
        { { "--diameter", "14in", "--diameter", "13in" }, { "--diameter", "13in", "once" } },
        { { "--diametre", "14in" }, { "--diametre", "unknown option", "perhaps --diameter" } },
        { { "-d", "14in" }, { "-d", "unknown option" } },
        { { "--depth", "10kg" }, { "--depth", "unknown unit" } },
        { { "--lugs", "100" }, { "--lugs", "100", "4 to 16" } },
        { { "--lugs", "eight" }, { "--lugs", "eight", "whole number" } },
        { { "--batter", "10" }, { "--batter", "no unit", "mil" } },
        { { "--batter", "10mil sparkly" }, { "--batter", "sparkly", "coated" } },
        { { "--batter", "9kg/m2" }, { "--batter", "9 kg/m2", "kg/m2" } },
        { { "--batter-dot", "80mm" }, { "--batter-dot", "80mm", "100mm:7mil" } },
        { { "--batter-dot", "800mm:7mil" }, { "batter", "dot diameter", "0.8 m" } },
        { { "--resonant-ring", "25mm:7" }, { "--resonant-ring, thickness", "no unit" } },
        { { "--bottom", "sponge" }, { "--bottom", "sponge", "head, closed or open" } },
        { { "--patch", "30mm:3g" }, { "--patch", "30mm:3g:120mm" } },
        { { "--patch", "30mm:3kg:120mm" }, { "--patch, mass", "3 kg", "0 to 0.1 kg" } },
        { { "--batter-lugs", "0,0,500,0,0,0,0,0" }, { "--batter-lugs, lug 3", "500", "-300 to 300" } },
        { { "--batter-lugs", "0,0,0" }, { "--batter-lugs: 3 values", "8" } },
        { { "--surround", "wet" }, { "--surround", "wet", "free or baffled" } },
        { { "--vent", "1m" }, { "--vent", "1 m", "0 to 0.05 m" } },
        { { "--shell", "cheese" }, { "--shell: \"cheese\"", "maple" } },
        { { "--shell", "Maple" }, { "--shell: \"Maple\"", "perhaps maple" } },
        { { "--wires", "1" }, { "--wires: \"1\"", "2 to 60", "off, on" } },
        { { "--air", "0" }, { "--air says \"0\" without a unit" } },
        { { "--reverberation", "abc" }, { "--reverberation: \"abc\"", "0.1 to 15 s" } },
        { { "--tempo", "100" }, { "--tempo does nothing here; needed: --place" } },
        { { "--dia", "14in" }, { "--dia is an unknown option", "perhaps --diameter" } },
        { { "--tuning", "4" }, { "--tuning", "a number from 1 to 3" } },
        { { "--air", "warm" }, { "--air", "warm", "25C" } },
        { { "--air", "25" }, { "--air says \"25\" without a unit; needed: 25C or 25%" } },
        { { "--air", "99C" }, { "--air, temperature", "99 C", "-40 to 60 C" } },
        { { "--batter-note", "X9" }, { "--batter-note", "X9", "207.65Hz" } },
        { { "--batter-note", "1Hz" }, { "--batter-note", "1 Hz", "10 to 5000 Hz" } },
        { { "--batter-note", "C7" }, { "batter", "Hz" } },
        { { "--interval", "half" }, { "--interval", "half", "P4" } },
        { { "--batter-tension", "-1" }, { "--batter-tension", "-1 N/m", "N/m" } },
        { { "--batter-tension", "2000lbf" }, { "--batter-tension", "unknown unit", "N/m" } },
        { { "--batter-tension", "2000" }, { "tuning has ", "batter tension", "both tensions" } },
        { { "--batter-tension", "30 lb/in" }, { "--batter-tension", "unknown unit", "1 to 25400 N/m" } },
        { { "--batter-tension", "25401" }, { "--batter-tension", "25401 N/m", "1 to 25400 N/m" } },
        { { "--drum-note", "D3" }, { "tuning has a drum note alone", "the interval too", "the head that stays" } },
        { { "--drum-note", "C6", "--resonant-note", "D4" },
          { "drum note", "the batter head would yield", "stays at 293.66 Hz" } },
        { { "--drum-note", "F#3", "--resonant-note", "D4", "--interval-limits", "M2:P5" },
          { "interval: perfect unison +39 cents", "major second to perfect fifth", "drum notes within that", " to F3 " } },
        { { "--drum-note", "F#3", "--resonant-note", "D4", "--interval-limits", "P5:M2" }, { "the smaller interval first" } },
        { { "--interval-limits", "P5" }, { "--interval-limits", "P5", "P1:P5" } },
        { { "--bottom", "open", "--resonant-note", "C4" }, { "--resonant-note cannot apply", "--bottom head" } },
        { { "--bottom", "closed", "--resonant-coating", "30g/m2" }, { "--resonant-coating cannot apply" } },
        { { "--bottom", "open", "--interval", "P4" }, { "--interval cannot apply" } },
        { { "--picture", "out.doc" }, { "--picture", "out.doc", "ends in .svg" } },
        { { "--concert-pitch", "300" }, { "--concert-pitch", "300 Hz", "400 to 480 Hz" } },
        { { "--highest", "1Hz" }, { "--highest", "50 to 20000 Hz" } },
        { { "--highest", "50Hz" }, { "--highest: 50 Hz", "156 to 20000 Hz", "146.5 Hz" } },
        { { "--highest", "150Hz" }, { "--highest: 150 Hz", "156 to 20000 Hz" } },
        { { "--highest", "2000" }, { "--highest", "no unit", "Hz" } },
        { { "--tuning", "fairy" }, { "--tuning", "fairy", "Warm, a fourth" } },
        { { "--drum", "brass-13x5.5" }, { "--drum", "brass-13x5.5", "not both" } },
        { { "brass-13x5.5" }, { "argument", "brass-13x5.5", "at most 1" } },
    };

    const TemporaryFolder folder;

    for (const auto& c : cases)
    {
        std::vector<std::string> arguments{ "predict", "maple-14x5" };
        arguments.insert (arguments.end(), c.options.begin(), c.options.end());
        CAPTURE (arguments);
        checkRefused (arguments, c.said, folder);
    }
}

TEST_CASE ("Other commands refuse wrong options", "[bad-input]")
{
    struct Case
    {
        std::vector<std::string> arguments;
        Said said;
    };

    const Case cases[] = {
        { { "predikt" }, { "command", "predikt", "perhaps predict" } },
        { { "plan", "maple-14x5", "--now-batter", "F3", "--step", "2" }, { "--step: 2 turn", "0.03125 to 1 turn" } },
        { { "plan", "maple-14x5", "--now-batter", "F3", "--now-batter-lugs", "1,2" },
          { "--now-batter-lugs: 2 values", "8 lugs" } },
        { { "sheet", "maple-14x5", "--output", "a.pdf", "--step", "1/4" }, { "--step does nothing here", "--now-batter" } },
        { { "find", "maple-14x5", "--drum-note", "D3", "--ring-value", "1/8" }, { "--ring-value does nothing here", "--tempo" } },
        { { "compare", "maple-14x5", "vs" }, { "\"vs\" has nothing after it" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--listener", "mono" }, { "--listener does nothing here", "--place" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--steps", "8" }, { "--steps does nothing here", "--pattern" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "o♯" }, { "'♯' at position 2" } },
        { { "predict" }, { "tuning is missing; needed: ", "--batter-note with --interval" } },
        { { "predict", "maple-14x55", "--interval", "P4" }, { "drum", "maple-14x55", "maple-14x5" } },
        { { "predict", "maple-14x5", "--json", "brass-13x5.5" }, { "--json", "brass-13x5.5", "put the drum before" } },
        { { "compare", "maple-14x5", "--tuning", "1" }, { "tunings to compare", "1", "2 to 12" } },
        { { "compare", "maple-14x5", "vs", "--interval", "P44" }, { "--interval", "P44" } },
        { { "modes", "maple-14x5", "--csv", "--json" }, { "--csv", "one of them" } },
        { { "modes", "maple-14x5", "--highest", "100Hz" }, { "--highest: 100 Hz", "156 to 20000 Hz" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--highest", "50Hz" }, { "--highest: 50 Hz", "156 to 20000 Hz" } },
        { { "render", "maple-14x5", "--output", "a.mp3" }, { "--output", "a.mp3", "ends in .wav" } },
        { { "sheet", "maple-14x5", "--output", "a.doc" }, { "--output", "a.doc", ".pdf, .svg, .png, .csv or .json" } },
        { { "sheet", "maple-14x5", "--output", "a.pdf", "--date", "2024-13-45" }, { "--date", "2024-13-45", "2024-05-17" } },
        { { "sheet", "maple-14x5", "--output", "a.pdf", "--date", "2023-02-29" }, { "--date", "2023-02-29" } },
        { { "sheet", "maple-14x5", "--output", "a.pdf", "--date", "2024- 1- 1" }, { "--date", "2024- 1- 1" } },
        { { "fit", "maple-14x5", "--tap-notes", "G3", "--date", "foo" }, { "--date", "foo" } },
        { { "listen", "." }, { "\".\", is a folder" } },
        { { "atlas", "maple-14x5", "--output", "a.pdf", "--batter-note", "G3" },
          { "--batter-note cannot apply", "--lowest-note" } },
        { { "atlas", "maple-14x5", "--output", "a.pdf", "--lowest-note", "A5", "--highest-note", "A6" },
          { "A5 to A6", "every tuning has a head slack or beyond its yield strength", "batter head" } },
        { { "presets", "--show", "none" }, { "--show: \"none\"", "snarewright presets" } },
        { { "presets", "everything" }, { "everything", "options only" } },
        { { "render", "maple-14x5" }, { "--output is missing; needed: a file to write" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--rate", "8000" }, { "--rate", "8000 Hz", "192000 Hz" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--bits", "8" }, { "--bits", "8", "16, 24 or 32f" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--highest", "3" }, { "--highest", "no unit", "Hz" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--position", "1.2" }, { "--position", "1.2", "0 to 0.98" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--position", "0.2,45" }, { "--position, angle", "no unit", "deg" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--length", "9000s" }, { "--length", "9000 s", "600 s" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--stroke", "brush" }, { "--stroke", "brush", "tip, rimshot" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--velocity", "128" }, { "--velocity", "128", "1 to 127" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--velocity", "9", "--speed", "1m/s" },
          { "--velocity is given beside --speed" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "o7.x." },
          { "--pattern", "'x' at position 4", "o c h e r k z d" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "..|." }, { "--pattern has no stroke; needed: " } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "o", "--tempo", "900" }, { "--tempo", "900", "400 bpm" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "o", "--steps", "0" }, { "--steps", "0", "1 to 16" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--pattern", "o", "--position", "0" },
          { "--position", "is given beside --pattern" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--midi", "none.mid" }, { "--midi, \"none.mid\", does not exist" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--microphone", "room" }, { "--microphone", "room", "above, below" } },
        { { "render", "maple-14x5", "--output", "-", "--each" }, { "--each", "standard output" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--above-at", "1m:2m" }, { "--above-at", "1m:2m", "colons" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--above-at", "0mm:0mm:0mm" },
          { "--above-at", "0 mm from", "20 mm or more" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--distant-at", "0m:0m:0m" }, { "--distant-at", "0 mm from" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--above-at", "100mm:0mm:-100mm" },
          { "--above-at", "inside the drum", "20 mm or more" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--below-at", "0mm:0mm:300mm" },
          { "--below-at, up", "300 mm", "less than -127 mm" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--above-at", "500mm:0mm:-5mm" },
          { "--above-at, up", "-5 mm", "above the batter head" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--detail", "coarse" }, { "--detail", "coarse", "live or fine" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--wires", "61" }, { "--wires", "61", "2 to 60" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--wires", "many" }, { "--wires", "many", "off, on" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--strainer", "99N" }, { "--strainer", "99 N", "0.05 to 30 N" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--press", "3mm" }, { "--press", "3 mm", "-2 to 2 mm" } },
        { { "render", "maple-14x5", "--output", "a.wav", "--hoop", "rubber" }, { "--hoop", "rubber", "cast" } },
    };

    const TemporaryFolder folder;

    for (const auto& c : cases)
    {
        CAPTURE (c.arguments);
        checkRefused (c.arguments, c.said, folder);
    }

    CHECK (folder.count() == 0);
}
