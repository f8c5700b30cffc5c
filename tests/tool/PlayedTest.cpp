// What `--played` says.

#include "RunProgram.h"

#include "Files/Json.h"
#include "tests/Catch.h"

using files::Json;

namespace
{
Json playedJson (std::vector<std::string> options)
{
    std::vector<std::string> words{ "predict", "maple-14x5", "--played", "--json" };
    words.insert (words.end(), options.begin(), options.end());
    const auto run = runProgram (words);
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    const auto document = files::parseJson (run.output, "played");
    REQUIRE (document.contains ("played"));
    return document.at ("played");
}

double number (const Json& object, const char* key)
{
    REQUIRE (object.contains (key));
    return object.at (key).get<double>();
}
} // namespace

TEST_CASE ("Playing tells what the stick and the wires do", "[predict]")
{
    // Tips stay on a head for some milliseconds and come back at a good part of their speed: common practice, no source.
    const auto played = playedJson ({});
    CHECK (number (played, "contact_time_ms") > 1.0);
    CHECK (number (played, "contact_time_ms") < 20.0);
    CHECK (number (played, "peak_force_n") > 5.0);
    CHECK (number (played, "peak_force_n") < 500.0);
    CHECK (number (played, "rebound_percent") > 30.0);
    CHECK (number (played, "rebound_percent") < 100.0);
    CHECK (number (played, "attack_brightness_hz") > 100.0);
    CHECK (number (played, "snare_sound_ms") > 50.0);

    const auto& curve = played.at ("snare_response");
    REQUIRE (curve != nullptr);
    REQUIRE (curve.size() >= 5);
    CHECK (number (curve.front(), "position_share") == 0.0);
    CHECK (number (curve.back(), "position_share") > 0.9);
    CHECK (number (curve.front(), "softest_speed_m_per_s") < 1.0);
}

TEST_CASE ("Without wires there is no curve of them", "[predict]")
{
    const auto played = playedJson ({ "--wires", "off" });
    CHECK (played.at ("snare_response").empty());
    CHECK_FALSE (played.contains ("snare_sound_ms"));
}

TEST_CASE ("A heavier stick stays on the head for longer", "[predict]")
{
    // A mass on a spring turns round in a time that goes with the root of the mass.
    CHECK (number (playedJson ({ "--stick-density", "1200kg/m3" }), "contact_time_ms") >
           1.1 * number (playedJson ({ "--stick-density", "500kg/m3" }), "contact_time_ms"));
}

TEST_CASE ("It is said in plain words, and side by side", "[predict]")
{
    const auto text = runProgram ({ "predict", "maple-14x5", "--played" }).output;

    for (const std::string part :
         { "contact time", "rebound", "dryness", "attack brightness", "SNARE RESPONSE", "m/s", "snare sound" })
    {
        CAPTURE (part);
        CHECK (text.find (part) != std::string::npos);
    }

    CHECK (runProgram ({ "predict", "maple-14x5" }).output.find ("ONE STROKE") == std::string::npos);

    const auto compared = runProgram ({ "compare", "maple-14x5", "--tuning", "1", "--played", "vs", "--wires", "off" }).output;
    CHECK (compared.find ("ONE STROKE") != std::string::npos);
    CHECK (compared.find ("no wires") != std::string::npos);
}
