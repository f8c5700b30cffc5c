// From a recording to a fit, a plan and a sheet. The engine plays the recording; it and the fit share only the solver of the
// modes.
#include "RunProgram.h"
#include "WavReader.h"

#include "Files/DrumFile.h"
#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

using files::Json;

namespace
{
ProgramRun run (std::vector<std::string> arguments, const TemporaryFolder& folder)
{
    auto result = runProgram (arguments, folder.path());
    CAPTURE (arguments.front(), result.errors);
    REQUIRE (result.status == 0);
    return result;
}

double number (const Json& json, const char* key)
{
    CAPTURE (key);
    return json.at (key).get<double>();
}
} // namespace

TEST_CASE ("A fit reads and names notes at the concert pitch that is asked for", "[fit]")
{
    const TemporaryFolder folder;
    const auto text = run ({ "fit", "maple-14x5", "--tap-notes", "G#3", "--concert-pitch", "442" }, folder).output;
    // Equal temperament (ISO 16 with another A4): G#3 is 13 semitones below A4.
    CHECK (text.find ("G#3  208.60 +/-") != std::string::npos);
}

TEST_CASE ("A recorded drum is fitted, planned and put on a sheet", "[fit]")
{
    const TemporaryFolder folder;
    const std::vector<std::string> tuning{ "--batter-note", "G#3", "--interval", "P4" };
    const auto with = [&] (std::vector<std::string> arguments)
    {
        arguments.insert (arguments.end(), tuning.begin(), tuning.end());
        return run (arguments, folder);
    };

    for (const std::string side : { "above", "below" })
        with ({ "render", "maple-14x5", "--wires", "off", "--microphone", side, "--pattern", "c4.......h5.......e5.......",
                "--tempo", "60", "--output", side + ".wav" });

    // A lug check of eight lugs needs more than three taps.
    const auto tooFewTaps = runProgram ({ "fit", "maple-14x5", "--lug-check", "above.wav" }, folder.path());
    CHECK (tooFewTaps.status == 2);
    CHECK (contains (tooFewTaps.errors, "3 taps"));

    const auto heard = files::parseJson (run ({ "listen", "above.wav", "--json" }, folder).output, "heard");
    const auto drumNote =
        number (files::parseJson (with ({ "predict", "maple-14x5", "--json" }).output, "prediction"), "drum_note_hz");

    for (const auto& tap : heard.at ("recordings").front().at ("taps"))
        CHECK (number (tap, "shared_note_hz") == Approx (drumNote).epsilon (3.0 / 1731.0));

    const auto report =
        run ({ "fit", "maple-14x5", "--strikes", "above.wav,below.wav", "--json", "drum.json", "--date", "2026-05-17" }, folder);
    CHECK (report.output.find ("MODES HEARD") != std::string::npos); // the text too, as predict does

    run ({ "fit", "maple-14x5", "--strikes", "above.wav,below.wav", "--leave-out", "--picture", "left.svg" }, folder);
    CHECK (contains (readBytes (folder.path() / "left.svg"), "<svg"));
    const auto fit = files::parseJson (readBytes (folder.path() / "drum.json"), "drum.json");
    const auto truth = files::parseJson (with ({ "predict", "maple-14x5", "--json" }).output, "prediction");

    REQUIRE (fit.at ("heads").is_array());
    for (const auto& head : fit.at ("heads"))
    {
        const auto& name = head.at ("head");
        CAPTURE (name);
        const auto& played = truth.at ("heads").at (name);
        const auto& tension = head.at ("tension_n_per_m");
        CHECK (number (tension, "value") == Approx (number (played, "tension_n_per_m")).epsilon (0.02));
        CHECK (number (tension, "error") > 0.0);
        CHECK (number (head.at ("tap_note_hz"), "value") ==
               Approx (number (played, "tap_note_hz")).epsilon (3.0 / 1731.0)); // 3 cents
    }

    const auto plan =
        run ({ "plan", "maple-14x5", "--now-from", "drum.json", "--batter-note", "A3", "--interval", "P4" }, folder);
    CHECK (contains (plan.output, "RESONANT  C#4"));
    CHECK (contains (plan.output, "to D4"));
    CHECK (contains (plan.output, "CAUTION"));

    // A plan for one head ends with the option that gives its first pass to the next plan.
    const auto one = run ({ "plan", "maple-14x5", "--now-batter", "F3", "--batter-note", "G#3" }, folder).output;
    CHECK_FALSE (contains (one, "RESONANT"));
    CHECK (contains (one, "--observed \"batter 1/8 F3 <note you hear>\""));
    run ({ "plan", "maple-14x5", "--now-batter", "G3 -28", "--batter-note", "G#3", "--observed", "batter 1/4 F3 G3 -28" },
         folder);

    // Without a note now the plan starts from the last note observed; a note now that is another one is refused.
    CHECK (run ({ "plan", "maple-14x5", "--batter-note", "G#3", "--observed", "batter 1/8 F3 F#3" }, folder)
               .output.find ("BATTER  F#3") != std::string::npos);
    const auto contradiction = runProgram (
        { "plan", "maple-14x5", "--now-batter", "F3", "--batter-note", "G#3", "--observed", "batter 1/8 F3 F#3" }, folder.path());
    CHECK (contradiction.status == 2);
    CHECK (contradiction.errors.find (
               "--now-batter: F3 cannot be used; allowed: F#3, where the last turn of --observed left it") != std::string::npos);
    run ({ "plan", "maple-14x5", "--now-batter", "F3", "--batter-note", "G#3", "--calibration", "batter 1/8 F3 F#3" }, folder);

    with ({ "sheet", "maple-14x5", "--measured", "drum.json", "--output", "sheet.csv" });
    const auto sheet = readBytes (folder.path() / "sheet.csv");
    CHECK (contains (sheet, "2026-05-17"));
    with ({ "sheet", "maple-14x5", "--measured", "drum.json", "--output", "sheet.pdf" });
    CHECK (readBytes (folder.path() / "sheet.pdf").substr (0, 5) == "%PDF-");
    with ({ "sheet", "maple-14x5", "--next", "A3 D4", "--output", "sheet.json" });
    const auto next = files::parseJson (readBytes (folder.path() / "sheet.json"), "sheet.json").at ("next");
    CHECK (next.at ("moves").size() == 2);
    CHECK (number (next.at ("moves").at (0), "to_hz") == Approx (220.0).epsilon (1e-6)); // A3, ISO 16
    CHECK (number (next.at ("moves").at (0), "turns") > 0.0);
}

TEST_CASE ("A present note that contradicts the measurement is refused", "[fit]")
{
    const TemporaryFolder folder;
    folder.write ("fit.json", R"({ "head": "batter", "date": "2024-05-17", "is_possible": true,
        "tap_note_hz": { "value": 207.6, "error": 0.4 }, "tension_n_per_m": { "value": 2080, "error": 31 },
        "mass_ratio": { "value": 1, "error": 0.02 }, "loss_ratio": { "value": 1, "error": 0 }, "lugs_cents": [], "lug_waves": [],
        "suspects": [], "unevenness_standard_deviations": 1, "misfit_standard_deviations": 1, "taps_used": 1, "doubts": [] })");
    const auto sheet = [&] (const std::string& now)
    {
        return runProgram ({ "sheet", "maple-14x5", "--measured", "fit.json", "--now-batter", now, "--now-resonant", "C4",
                             "--output", "sheet.svg" },
                           folder.path());
    };

    const auto refused = sheet ("F3");
    CHECK (refused.status == 2);
    CHECK (contains (refused.errors, "--now-batter: \"F3\" beside a head that was measured at G#3"));
    CHECK_FALSE (std::filesystem::exists (folder.path() / "sheet.svg"));
    CHECK (sheet ("G#3").status == 0);
    CHECK (std::filesystem::exists (folder.path() / "sheet.svg"));
}

TEST_CASE ("An input that cannot be fitted is named", "[fit]")
{
    const TemporaryFolder folder;
    folder.write ("text.wav", "no sound at all");
    struct Case
    {
        std::vector<std::string> arguments;
        std::string named;
    };
    const std::vector<Case> cases{
        { { "fit", "maple-14x5" }, "--lug-check" },
        { { "fit", "maple-14x5", "--lug-check", "nothing.wav" }, "nothing.wav" },
        { { "fit", "maple-14x5", "--lug-check", "text.wav" }, "text.wav" },
        { { "fit", "maple-14x5", "--strikes", "text.wav" }, "text.wav" },
        { { "fit", "maple-14x5", "--strikes", "text.wav", "--turned", "batter" }, "--turned" },
        { { "fit", "maple-14x5", "--strikes", "text.wav", "--turned", "batter 1/8" }, "--strikes-turned" },
        { { "fit", "maple-14x5", "--strikes", "text.wav", "--centre-weight", "2g" }, "--centre-weight" },
        { { "fit", "maple-14x5", "--strikes", "text.wav", "--or-batter", "paper" }, "--or-batter" },
        { { "fit", "maple-14x5", "--tap-notes", "H9" }, "H9" },
        { { "fit", "maple-14x5", "--tap-notes", "G3", "--turned", "batter 1/8" }, "--turned" },
        { { "fit", "maple-14x5", "--tap-notes", "G3", "--weight", "4g,60mm,100mm,0deg" }, "--weight" },
        { { "fit", "maple-14x5", "--lug-check", "text.wav", "--now-batter", "G3" }, "--now-batter" },
        { { "fit", "maple-14x5", "--strikes", "text.wav", "--head", "batter" }, "--head" },
        { { "plan", "maple-14x5", "--now-from", "text.wav", "--batter-note", "A3", "--interval", "P4" }, "text.wav" },
        { { "sheet", "maple-14x5", "--measured", "text.wav", "--output", "sheet.pdf" }, "text.wav" },
    };
    for (const auto& [arguments, named] : cases)
    {
        const auto result = runProgram (arguments, folder.path());
        CAPTURE (arguments, result.output);
        CHECK (result.status == 2);
        CHECK (contains (result.errors, named));
    }
}

TEST_CASE ("fit --play-like sets the model from a strike, writes both sounds and a drum file that reads back")
{
    const TemporaryFolder folder;
    run ({ "render", "maple-14x5", "--wires", "off", "--patch", "45mm:7g:120mm", "--microphone", "above", "--pattern", "h",
           "--tempo", "60", "--output", "strike.wav" },
         folder);
    const auto report = run ({ "fit", "maple-14x5", "--play-like", "strike.wav", "--output", "both.wav", "--save-drum",
                               "like.json", "--json", "told.json" },
                             folder);
    CHECK (contains (report.output, "No wires are heard"));
    CHECK (contains (report.output, "of gel on the batter head"));

    const auto told = files::parseJson (readBytes (folder.path() / "told.json"), "told.json");
    CHECK (number (told.at ("gel_kg"), "low") < 7.0e-3);
    CHECK (number (told.at ("gel_kg"), "high") > 7.0e-3);
    CHECK_FALSE (told.at ("wires_on").get<bool>());

    const auto drum = files::readDrum (readBytes (folder.path() / "like.json"), "like.json");
    REQUIRE (drum.drum.muffling.size() == 1);
    CHECK (drum.drum.muffling.front().mass == Approx (number (told.at ("gel_kg"), "value")));
    CHECK_FALSE (drum.wires.on);

    // The strike, 0.7 s of pause, 1.5 s of the model.
    const auto both = readWav (readBytes (folder.path() / "both.wav"));
    CHECK (both.channels == 1);
    CHECK (static_cast<double> (both.samples.size()) / both.rate > 2.5);
    CHECK (contains (runProgram ({ "fit", "maple-14x5", "--play-like", "told.json" }, folder.path()).errors, "not a sound file"));
}
