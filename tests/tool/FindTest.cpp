// Three users look for a tuning with the program, from the wish to what they do next.
#include "RunProgram.h"
#include "WavReader.h"

#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

#include <algorithm>
#include <cmath>

namespace
{

struct Found
{
    files::Json json;
    ProgramRun run;
};

Found find (const std::vector<std::string>& options, const TemporaryFolder& folder)
{
    std::vector<std::string> words{ "find", "maple-14x5", "--json", "found.json" };
    words.insert (words.end(), options.begin(), options.end());
    const auto run = runProgram (words, folder.path());
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    return { files::parseJson (readBytes (folder.path() / "found.json"), "found.json"), run };
}

/** Hz of a note by its MIDI number (ISO 16: A4 = 440 Hz). */
double hertz (double midi)
{
    return 440.0 * std::exp2 ((midi - 69.0) / 12.0);
}

} // namespace

TEST_CASE ("A tech finds a drum note with the resonant head left alone, and gets plan and sheet", "[find]")
{
    const TemporaryFolder folder;
    const auto [json, run] =
        find ({ "--drum-note", "D3:E3", "--resonant-move", "stays", "--plan", "1", "--sheet", "sheet.pdf" }, folder);
    CHECK (json["all_met"] == true);
    REQUIRE (json["tunings"].size() >= 1);

    for (const auto& tuning : json["tunings"])
    {
        CHECK (tuning["drum_note_hz"].get<double>() > hertz (50.0) * std::exp2 (-1.0 / 1200.0));
        CHECK (tuning["drum_note_hz"].get<double>() < hertz (52.0) * std::exp2 (1.0 / 1200.0));
        CHECK (std::abs (tuning["resonant_move_semitones"].get<double>()) < 0.06);
    }

    CHECK (contains (run.output, "least to turn"));
    CHECK (contains (run.output, "BATTER  G#3 to "));
    CHECK (contains (run.output, "snarewright plan maple-14x5"));
    CHECK (readBytes (folder.path() / "sheet.pdf").starts_with ("%PDF"));

    // What the list gives is what "predict" gives for its notes.
    const auto& first = json["tunings"][0];
    const auto predicted =
        files::parseJson (runProgram ({ "predict", "maple-14x5", "--batter-note", first["batter_tap_note_hz"].dump() + "Hz",
                                        "--resonant-note", first["resonant_tap_note_hz"].dump() + "Hz", "--json", "-" },
                                      folder.path())
                              .output,
                          "predict");
    const double cents = 1200.0 * std::log2 (predicted["drum_note_hz"].get<double>() / first["drum_note_hz"].get<double>());
    CHECK (std::abs (cents) < 4.0); // the search solves fewer modes
}

TEST_CASE ("A producer asks for a song, sees what common practice makes of it, and hears the list blind", "[find]")
{
    const TemporaryFolder folder;
    const auto [json, run] = find ({ "--key", "F minor", "--tempo", "60", "--ring-value", "1/4", "--interval", "P4:P5", "--hear",
                                     "list.wav", "--one-file", "all.wav", "--blind", "key.txt" },
                                   folder);
    REQUIRE (json["wishes"].size() == 3);
    CHECK (contains (json["wishes"][1]["reason"].get<std::string>(), "common practice, no source"));
    CHECK (json["wishes"][2]["ranges"][0]["high"].get<double>() == Approx (1.0)); // a quarter at 60 quarters a minute
    const auto key = readBytes (folder.path() / "key.txt");
    const auto files = std::count (key.begin(), key.end(), '\n');
    REQUIRE (files == static_cast<std::ptrdiff_t> (json["tunings"].size()));

    // One file with all of them, in the same hidden order, a second of silence between.
    const auto all = readWav (readBytes (folder.path() / "all.wav"));
    std::vector<double> joined;

    for (int i = 1; i <= files; ++i)
    {
        const auto one = readWav (readBytes (folder.path() / ("list-" + std::to_string (i) + ".wav")));
        REQUIRE (one.channels == all.channels);
        if (i > 1)
            joined.insert (joined.end(), static_cast<std::size_t> (one.channels) * one.rate, 0.0);
        joined.insert (joined.end(), one.samples.begin(), one.samples.end());
        CHECK (std::filesystem::file_size (folder.path() / ("list-" + std::to_string (i) + ".wav")) > 100000);
        CHECK (contains (key, "file " + std::to_string (i) + ": tuning "));
    }

    const bool isJoined = all.samples == joined;
    CHECK (isJoined);
}

TEST_CASE ("A teacher asks for what no tuning gives, and reads which wish excludes which", "[find]")
{
    const TemporaryFolder folder;
    const auto [json, run] = find ({ "--drum-note", "D3:E3", "--ring", ":0.3s", "--interval", "P4:P5" }, folder);
    CHECK (json["all_met"] == false);
    REQUIRE (json["conflicts"].size() >= 1);
    CHECK (contains (json["conflicts"][0]["text"].get<std::string>(), "No tuning of this drum has"));
    REQUIRE (json["tunings"].size() >= 2);
    CHECK (json["tunings"][0]["misses"].size() >= 1);
    CHECK (contains (json["tunings"][0]["misses"][0]["text"].get<std::string>(), "too"));
}

TEST_CASE ("What find cannot do it says, with the option", "[find]")
{
    const TemporaryFolder folder;
    const auto check = [&] (const std::vector<std::string>& options, const std::vector<std::string>& said)
    {
        std::vector<std::string> words{ "find", "maple-14x5" };
        words.insert (words.end(), options.begin(), options.end());
        const auto run = runProgram (words, folder.path());
        CAPTURE (run.errors);
        CHECK (run.status == 2);
        for (const auto& part : said)
            CHECK (contains (run.errors, part));
    };
    check ({}, { "wishes are missing", "--drum-note" });
    check ({ "--drum-note", "loud" }, { "--drum-note", "loud", "a note from C-1" });
    check ({ "--ring", "0.3" }, { "--ring", "0.3", ":0.6s" });
    check ({ "--key", "H" }, { "--key", "D, Bb major" });
    check ({ "--tempo", "5" }, { "--tempo", "20 to 400" });
    check ({ "--hand", "3,2,1" }, { "usual stroke" });
    check ({ "--drum-note", "E3", "--now-batter", "G3" }, { "--now-resonant is missing" });
    check ({ "--drum-note", "E3", "--blind", "key.txt" }, { "--blind", "--hear" });
    check ({ "--drum-note", "E3", "--one-file", "all.wav" }, { "--one-file", "--hear" });
    check ({ "--drum-note", "E3", "--plan", "9" }, { "--plan", "9" });
    check ({ "--drum-note", "E3", "--bottom", "open" }, { "without a resonant head" });
}

TEST_CASE ("A producer asks for a note that is gone after a beat in the club, and for wires that carry", "[find]")
{
    const TemporaryFolder folder;
    const Found inClub = find ({ "--place", "club", "--tempo", "60", "--lasts", "1beat:1.2beats" }, folder);
    CHECK (inClub.json["all_met"] == true);
    REQUIRE (inClub.json["wishes"].size() == 1); // the song's wish for the ring is left out
    REQUIRE_FALSE (inClub.json["tunings"].empty());
    CHECK (contains (inClub.run.output, "drum note at the listener"));
    CHECK (contains (inClub.run.output, "snarewright predict maple-14x5 --batter-note"));
    CHECK (contains (inClub.run.output, "--place club"));

    // What the list says is what "predict" says of its notes there: a beat at 60 a minute is a second.
    const auto& first = inClub.json["tunings"][0];
    const auto predicted = files::parseJson (
        runProgram ({ "predict", "maple-14x5", "--batter-note", first["batter_tap_note_hz"].dump() + "Hz", "--resonant-note",
                      first["resonant_tap_note_hz"].dump() + "Hz", "--place", "club", "--json", "-" },
                    folder.path())
            .output,
        "predict");
    const double lasts = first["drum_note_lasts_s"].get<double>();
    CHECK (lasts > 0.99);
    CHECK (lasts < 1.21);
    CHECK (predicted["at_listener"]["drum_note_lasts_s"].get<double>() == Approx (lasts).epsilon (0.02));

    for (const auto* option : { "--lasts", "--wires-carry" })
    {
        const auto nowhere = runProgram ({ "find", "maple-14x5", option, ":1" }, folder.path());
        CHECK (nowhere.status == 2);
        CHECK (contains (nowhere.errors, option));
        CHECK (contains (nowhere.errors, "--place"));
    }
    const auto withoutTempo = runProgram ({ "find", "maple-14x5", "--place", "club", "--lasts", ":1beat" }, folder.path());
    CHECK (withoutTempo.status == 2);
    CHECK (contains (withoutTempo.errors, "tempo"));
}
