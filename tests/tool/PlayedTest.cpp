// What `--played` prints.

#include "RunProgram.h"

#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

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

double numberIn (const Json& object, const char* key)
{
    REQUIRE (object.contains (key));
    return object.at (key).get<double>();
}
} // namespace

TEST_CASE ("Playing one stroke gives contact time, force, rebound and snare response", "[predict]")
{
    // A tip stays on the head for a few milliseconds and rebounds with most of its speed: common practice, no source.
    const auto played = playedJson ({});
    CHECK (numberIn (played, "contact_time_ms") > 1.0);
    CHECK (numberIn (played, "contact_time_ms") < 20.0);
    CHECK (numberIn (played, "peak_force_n") > 5.0);
    CHECK (numberIn (played, "peak_force_n") < 500.0);
    CHECK (numberIn (played, "rebound_percent") > 30.0);
    CHECK (numberIn (played, "rebound_percent") < 100.0);
    CHECK (numberIn (played, "attack_brightness_hz") > 100.0);

    // Wires of three recorded snare drums: 310 to 507 ms from 2 to 16 kHz (T60); one stroke differs by a third from the next.
    CHECK (numberIn (played, "snare_sound_ms") > 200.0);
    CHECK (numberIn (played, "snare_sound_ms") < 700.0);

    // An independent calculation by finite differences of this stick at 3 m/s, its shaft on a hoop of 1.2 kg at 900 Hz: up to 1.6 ms on the
    // head, 140 to 340 N on the hoop.
    CHECK (numberIn (played, "rimshot_contact_time_ms") < 1.6);
    CHECK (numberIn (played, "rimshot_hoop_force_n") > 140.0);
    CHECK (numberIn (played, "rimshot_hoop_force_n") < 340.0);
    CHECK (numberIn (played, "rimshot_peak_force_n") > 5.0);
    CHECK (numberIn (played, "rimshot_brightness_hz") > numberIn (played, "attack_brightness_hz"));
    CHECK (std::abs (numberIn (played, "rimshot_level_db")) < 6.0);

    const auto& curve = played.at ("snare_response");
    REQUIRE (curve != nullptr);
    REQUIRE (curve.size() >= 5);
    CHECK (numberIn (curve.front(), "position_share") == 0.0);
    CHECK (numberIn (curve.back(), "position_share") > 0.9);
    CHECK (numberIn (curve.front(), "softest_speed_m_per_s") < 1.0);
}

TEST_CASE ("Without wires there is no snare response", "[predict]")
{
    const auto played = playedJson ({ "--wires", "off" });
    CHECK (played.at ("snare_response").empty());
    CHECK_FALSE (played.contains ("snare_sound_ms"));
}

TEST_CASE ("A heavier stick stays on the head for longer", "[predict]")
{
    // The contact time of a mass on a spring is proportional to the square root of the mass.
    CHECK (numberIn (playedJson ({ "--stick-density", "1200kg/m3" }), "contact_time_ms") >
           1.1 * numberIn (playedJson ({ "--stick-density", "500kg/m3" }), "contact_time_ms"));
}

TEST_CASE ("The stroke is in the text, and side by side in a comparison", "[predict]")
{
    const auto text = runProgram ({ "predict", "maple-14x5", "--played" }).output;

    for (const std::string part :
         { "contact time", "rebound", "dryness", "attack brightness", "SNARE RESPONSE", "m/s", "snare sound" })
    {
        CAPTURE (part);
        CHECK (contains (text, part));
    }

    CHECK_FALSE (contains (runProgram ({ "predict", "maple-14x5" }).output, "ONE STROKE"));

    const auto compared = runProgram ({ "compare", "maple-14x5", "--tuning", "1", "--played", "vs", "--wires", "off" }).output;
    CHECK (contains (compared, "ONE STROKE"));
    CHECK (contains (compared, "no wires"));
}
