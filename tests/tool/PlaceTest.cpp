// The place where the drum is heard, by running the program.

#include "RunProgram.h"
#include "WavReader.h"

#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

#include <cmath>
#include <sstream>

namespace
{
using Words = std::vector<std::string>;

files::Json predicted (Words options)
{
    const TemporaryFolder folder;
    Words words{ "predict", "maple-14x5", "--json", "out.json" };
    words.insert (words.end(), options.begin(), options.end());
    const auto run = runProgram (words, folder.path());
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    return files::parseJson (readBytes (folder.path() / "out.json"), "out.json");
}

std::string errorOf (const Words& words)
{
    const auto run = runProgram (words);
    CHECK (run.status == 2);
    return run.errors;
}
} // namespace

TEST_CASE ("The prediction says what the place does, in text and as data", "[place]")
{
    const auto run = runProgram ({ "predict", "maple-14x5", "--place", "club", "--tempo", "120" });
    CHECK (run.status == 0);
    for (const auto* words :
         { "AT THE LISTENER  Club, 1500 m3, 9.1 m from the drum", "drum note lasts", "drum note lasts, in beats", "at 120 bpm",
           "direct over reverberant sound", "wires clear to", "wires heard to", "NR 60" })
        CHECK (contains (run.output, words));
    CHECK_FALSE (contains (runProgram ({ "predict", "maple-14x5" }).output, "LISTENER"));

    const auto json = predicted ({ "--place", "club", "--tempo", "120" });
    const auto& at = json["at_listener"];
    CHECK (json["place"]["volume_m3"] == 1500);
    // The room adds to the note, and 120 beats a minute are two a second.
    CHECK (at["drum_note_lasts_s"].get<double>() > json["drum_note_t60_s"].get<double>());
    CHECK (at["drum_note_lasts_beats"].get<double>() == Approx (2.0 * at["drum_note_lasts_s"].get<double>()));
    // 0.057 √(V/T) (Kuttruff): 0.75 s at 4 kHz, 0.8 s at 1 kHz.
    CHECK (at["wires_clear_to_m"].get<double>() == Approx (0.057 * std::sqrt (1500.0 / 0.75)).epsilon (0.01));
    CHECK (at["direct_over_reverberant_db"].get<double>() ==
           Approx (20.0 * std::log10 (0.057 * std::sqrt (1500.0 / 0.8) / at["distance_m"].get<double>())).margin (0.1));

    // In the open air the level falls by 6 dB with each doubling of the distance, and nothing reverberates.
    const auto levelAt = [] (const char* where) {
        return predicted ({ "--place", "open-air", "--listener-at", where })["at_listener"]["level_dba"].get<double>();
    };
    CHECK (levelAt ("10m:0m:2m") - levelAt ("20m:0m:2m") == Approx (6.02).margin (0.2));
    CHECK_FALSE (predicted ({ "--place", "open-air", "--wires", "off" })["at_listener"].contains ("wires_heard_to_m"));
}

TEST_CASE ("A comparison shows what each place does, with the figures of the prediction", "[place]")
{
    const TemporaryFolder folder;
    const auto run = runProgram ({ "compare", "maple-14x5", "--tempo", "120", "--json", "out.json", "vs", "--place", "club", "vs",
                                   "--place", "open-air", "--wires", "off" },
                                 folder.path());
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    const auto tunings = files::parseJson (readBytes (folder.path() / "out.json"), "out.json")["tunings"];
    REQUIRE (tunings.size() == 3);
    CHECK_FALSE (tunings[0]["prediction"].contains ("at_listener"));
    CHECK (tunings[1]["prediction"]["at_listener"] == predicted ({ "--place", "club", "--tempo", "120" })["at_listener"]);
    CHECK (tunings[2]["prediction"]["at_listener"] ==
           predicted ({ "--place", "open-air", "--wires", "off", "--tempo", "120" })["at_listener"]);

    // Each row of the text holds what "predict" prints; the open air does not reverberate, and wires that are off are not heard.
    const auto lineOf = [] (const std::string& text, const std::string& name)
    {
        const auto begin = text.find ("  " + name + "  ");
        return begin == std::string::npos ? std::string() : text.substr (begin, text.find ('\n', begin) - begin);
    };
    CHECK (contains (lineOf (run.output, "AT THE LISTENER"), "no place"));
    CHECK (contains (lineOf (run.output, "AT THE LISTENER"), "Club, 1500 m3, 9.1 m from the drum"));
    const auto alone = runProgram ({ "predict", "maple-14x5", "--place", "club", "--tempo", "120" }).output;

    for (const auto* name : { "drum note lasts", "drum note lasts, in beats", "level", "direct over reverberant sound",
                              "wires clear to", "wires heard to" })
    {
        std::istringstream words (lineOf (alone, name).substr (2 + std::string (name).size()));
        std::string value;
        words >> value;
        CAPTURE (name, value);
        CHECK (contains (lineOf (run.output, name), "  -  "));
        CHECK (contains (lineOf (run.output, name), "  " + value));
    }

    CHECK (lineOf (run.output, "wires heard to").ends_with ("  -"));
    CHECK_FALSE (contains (runProgram ({ "compare", "maple-14x5", "vs", "--interval", "P5" }).output, "LISTENER"));
}

TEST_CASE ("A place is described by options, by its file and in the drum's file", "[place]")
{
    const auto json =
        predicted ({ "--room-volume", "800m3", "--room-shape", "2.5:1.6:1", "--reverberation", "1.1 1.0 0.9 0.9 0.8 0.7 0.6 s",
                     "--drum-at", "1m:0m:0.9m", "--listener-at", "6m:-1m:1.6m", "--noise-rating", "35", "--air", "10C,70%" });
    const auto& place = json["place"];
    CHECK (place["volume_m3"] == 800);
    CHECK (place["length_to_height"] == 2.5);
    CHECK (place["reverberation_s"][6] == 0.6);
    CHECK (place["temperature_c"] == 10);
    CHECK (place["noise_rating"] == 35);

    const TemporaryFolder folder;
    folder.write ("back-room.json",
                  R"({ "format": "snarewright-place", "version": 1, "name": "Back room", "place": { "volume_m3": 60,
        "listener_distance_m": 2, "drum_from_wall_m": 1, "listener_aside_m": 0, "reverberation_s": [0.5, 0.5, 0.5, 0.4, 0.4, 0.4, 0.3] } })");
    const auto run = runProgram ({ "predict", "maple-14x5", "--place", "back-room.json" }, folder.path());
    CHECK (contains (run.output, "Back room, "));

    auto drum = files::parseJson (runProgram ({ "presets", "--show", "maple-14x5" }).output, "drum");
    drum["place"] = "theatre";
    folder.write ("drum.json", drum.dump());
    CHECK (contains (runProgram ({ "predict", "drum.json" }, folder.path()).output, "Theatre"));
    CHECK_FALSE (contains (runProgram ({ "predict", "drum.json", "--place", "none" }, folder.path()).output, "LISTENER"));

    for (const auto* name : { "arena", "church", "club", "living-room", "open-air", "studio-dry", "theatre" })
        CHECK (contains (runProgram ({ "presets" }).output, name));
}

TEST_CASE ("A place that cannot be is refused", "[place]")
{
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--place", "pub" }),
                     "--place: \"pub\" cannot be used; allowed: a place file, or a preset: "));
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--room-volume", "1m3" }),
                     "--room-volume: 1 m3 cannot be used; allowed: 10 to 2000000 m3"));
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--place", "club", "--listener-at", "90m:0m:1m" }),
                     "place, listener distance: 90 m"));
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--reverberation", "1 1 1" }), "one for each octave"));
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--reverberation", "1 1 1 1 1 1 3 s" }),
                     "place, reverberation at 8000 Hz: 3 s"));
    CHECK (contains (errorOf ({ "predict", "maple-14x5", "--place", "none", "--room-volume", "100m3" }), "--place none"));
}

TEST_CASE ("render lets the listener hear the drum", "[place]")
{
    const TemporaryFolder folder;
    const auto render = [&] (Words options)
    {
        Words words{ "render",       "maple-14x5", "--output", "out.wav", "--bits",   "32f",
                     "--full-scale", "1Pa",        "--wires",  "off",     "--length", "3s" };
        words.insert (words.end(), options.begin(), options.end());
        const auto run = runProgram (words, folder.path());
        CAPTURE (run.errors);
        REQUIRE (run.status == 0);
        return readWav (readBytes (folder.path() / "out.wav"));
    };
    const auto energy = [] (const WavContent& wav, double from, double to)
    {
        double sum = 0.0;
        for (auto i = static_cast<std::size_t> (from * wav.rate) * static_cast<std::size_t> (wav.channels);
             i <
             std::min (wav.samples.size(), static_cast<std::size_t> (to * wav.rate) * static_cast<std::size_t> (wav.channels));
             ++i)
            sum += wav.samples[i] * wav.samples[i];
        return sum;
    };

    const auto alone = render ({ "--microphone", "distant" }), church = render ({ "--place", "church", "--listener", "mono" });
    CHECK (render ({ "--place", "church" }).channels == 2);
    CHECK (church.channels == 1);
    const bool isUnchanged = render ({ "--place", "church", "--microphone", "distant" }).samples == alone.samples;
    CHECK (isUnchanged);

    // The listener sits ten times further away than the microphone; two seconds later only the church is left.
    CHECK (energy (church, 0.0, 0.1) < energy (alone, 0.0, 0.1));
    CHECK (energy (church, 2.0, 2.5) > 10.0 * energy (alone, 2.0, 2.5));

    // Nothing but the direct sound and the ground's in the open air: the first sound falls with the distance, 1.9 m for the
    // microphone.
    const auto outside = render ({ "--place", "open-air", "--listener", "mono" });
    CHECK (energy (outside, 0.0, 1.0) < 4.0 * energy (alone, 0.0, 1.0) * 1.9 * 1.9 / (20.0 * 20.0));
    CHECK (energy (outside, 0.0, 1.0) > 0.1 * energy (alone, 0.0, 1.0) * 1.9 * 1.9 / (20.0 * 20.0));
}
