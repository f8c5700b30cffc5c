#include "tests/Catch.h"

#include "Plugin/ParameterText.h"
#include "Plugin/StateDocument.h"

#include "Files/TextFile.h"

#include <random>

using namespace plugin;

namespace
{
Values randomValues (unsigned seed)
{
    std::mt19937 random (seed);
    Values values{};
    for (std::size_t i = 0; i < parameterCount; ++i)
    {
        const auto& spec = parameterTable()[i];
        values[i] = static_cast<float> (spec.snapped (std::uniform_real_distribution (spec.low, spec.high) (random)));
    }
    return values;
}
} // namespace

TEST_CASE ("A state reads back bit for bit")
{
    for (unsigned seed = 0; seed < 200; ++seed)
    {
        State state;
        state.name = "Tight third";
        state.live = randomValues (3 * seed);
        for (unsigned i = 0; i < state.snapshots.size(); ++i)
            if ((seed >> i) % 2 == 1)
                state.snapshots[i] = randomValues (1000 + 8 * seed + i);

        const auto reading = readState (writeState (state));
        CAPTURE (seed);
        REQUIRE (reading.isUsable);
        CHECK (reading.messages.empty());
        CHECK (reading.state.live == state.live);
        CHECK (reading.state.snapshots == state.snapshots);
        CHECK (reading.state.name == state.name);
    }
}

TEST_CASE ("A state is text that a person can read")
{
    const auto text = writeState ({});
    CHECK (text.find ("\"diameter_in\": 14") != std::string::npos);
    CHECK (text.find ("\"interval\": 5") != std::string::npos);
    CHECK (text.find ("\"shell_material\": \"maple\"") != std::string::npos);
    CHECK (text.find ("\"wires_on\": true") != std::string::npos);
}

TEST_CASE ("Unknown members of a newer version are kept and reported")
{
    const auto reading = readState (R"({ "format": "snarewright-state", "version": 7, "future": { "a": [1, 2] },
                                         "sound": { "interval": 7, "gravity_of_jupiter": 24.8 } })");
    REQUIRE (reading.isUsable);
    CHECK (reading.messages.size() == 1);
    CHECK (reading.state.live[indexOf (Parameter::interval)] == 7.0f);

    const auto written = writeState (reading.state);
    CHECK (written.find ("\"gravity_of_jupiter\": 24.8") != std::string::npos);
    CHECK (written.find ("\"future\"") != std::string::npos);
}

TEST_CASE ("Parameters missing in an older state have their initial values")
{
    const auto reading = readState (R"({ "format": "snarewright-state", "version": 1, "sound": { "interval": 4 } })");
    CHECK (reading.messages.empty());
    auto expected = initialValues();
    expected[indexOf (Parameter::interval)] = 4.0f;
    CHECK (reading.state.live == expected);
}

TEST_CASE ("A damaged state gives defaults and a message")
{
    const auto whole = writeState ({ "Name", randomValues (5), randomValues (6), {}, {}, {} });

    for (std::size_t length = 0; length < whole.size(); length += 7)
    {
        const auto reading = readState (whole.substr (0, length));
        CHECK_FALSE (reading.isUsable);
        CHECK_FALSE (reading.messages.empty());
        CHECK (reading.state.live == initialValues());
    }

    for (const char* text : { "", "null", "[]", "{}", "42", "\xff\xfe", R"({ "format": "other" })", R"({ "format": 3 })" })
    {
        CAPTURE (text);
        const auto reading = readState (text);
        CHECK_FALSE (reading.isUsable);
        CHECK (reading.state.live == initialValues());
    }

    CHECK_FALSE (readState (std::string (largestState + 1, ' ')).isUsable);
}

TEST_CASE ("A pattern saved under its former name still loads")
{
    const auto reading = readState (
        R"({ "format": "snarewright-state", "version": 1, "sound": { "pattern": "From the edge to the middle" } })");
    REQUIRE (reading.isUsable);
    CHECK (reading.messages.empty());
    CHECK (textOf (specOf (Parameter::pattern), static_cast<double> (reading.state.live[indexOf (Parameter::pattern)])) ==
           "From the edge to the centre");
}

TEST_CASE ("One invalid value does not affect the others")
{
    const auto reading = readState (R"({ "format": "snarewright-state", "version": 1, "sound":
        { "interval": 700, "diameter_in": 13, "depth_in": "deep", "shell_material": "cheese", "wires_on": 1 } })");
    CHECK (reading.isUsable);
    CHECK (reading.messages.size() == 4);
    auto expected = initialValues();
    expected[indexOf (Parameter::diameter)] = 13.0f;
    CHECK (reading.state.live == expected);
}

TEST_CASE ("A song saved by the first version still loads")
{
    // Frozen: written by version 0.1.0 and never to be written again. The values beside it are those that were set then.
    const auto reading = readState (files::loadText (SNAREWRIGHT_TEST_DATA "/state-0.1.0.json"));
    REQUIRE (reading.isUsable);
    CHECK (reading.messages.empty());
    CHECK (reading.state.name == "Frozen");
    const auto& live = reading.state.live;
    CHECK (live[indexOf (Parameter::batterNote)] == 54.25f);
    CHECK (live[indexOf (Parameter::interval)] == 7.0f);
    CHECK (live[indexOf (Parameter::diameter)] == 13.0f);
    CHECK (live[indexOf (Parameter::depth)] == 6.5f);
    CHECK (live[indexOf (Parameter::shellMaterial)] == 5.0f);
    CHECK (live[indexOf (Parameter::hoop)] == 2.0f);
    CHECK (live[indexOf (batterLug (3))] == -20.0f);
    CHECK (live[indexOf (Parameter::wiresOn)] == 0.0f);
    CHECK (live[indexOf (Parameter::gain)] == -6.0f);
    // Then a stick was the mass at its tip, 14 g being the usual one; this one was 20 g.
    CHECK (live[indexOf (Parameter::woodDensity)] == Approx (800.0 * 20.0 / 14.0).margin (0.5)); // stored in whole kg/m³
    CHECK (live[indexOf (Parameter::tipMaterial)] == 0.0f);
    CHECK (reading.state.unknownInSound == "{}");
    REQUIRE (reading.state.snapshots[0].has_value());
    CHECK ((*reading.state.snapshots[0])[indexOf (Parameter::interval)] == 5.0f);
    CHECK_FALSE (reading.state.snapshots[1].has_value());
}
