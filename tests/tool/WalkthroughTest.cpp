// A tech, a producer and a teacher each do a whole job with the program, by the commands that README.md gives them.
#include "RunProgram.h"
#include "WavReader.h"

#include "Files/Json.h"
#include "tests/Catch.h"
#include "tests/Contains.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iomanip>
#include <map>
#include <sstream>

namespace
{
ProgramRun run (const std::vector<std::string>& arguments, const TemporaryFolder& folder)
{
    auto result = runProgram (arguments, folder.path());
    CAPTURE (arguments.front(), result.errors);
    REQUIRE (result.status == 0);
    return result;
}

/** Runs the commands under a heading of README.md, with "> FILE" as a shell has it. Returns the output of each, after its name. */
std::map<std::string, std::string> follow (const std::string& heading, const TemporaryFolder& folder)
{
    constexpr std::string_view program = "    snarewright ";
    std::ifstream readme (SNAREWRIGHT_README);
    std::map<std::string, std::string> outputs;
    bool isThere = false;

    for (std::string line; std::getline (readme, line);)
    {
        if (line.starts_with ("#"))
            isThere = contains (line, heading);
        if (! isThere || ! line.starts_with (program))
            continue;

        std::istringstream words (line.substr (program.size(), line.find (" # ") - program.size()));
        std::vector<std::string> command;
        for (std::string word; words >> std::quoted (word);)
            command.push_back (word);

        const auto redirection = std::find (command.begin(), command.end(), ">");
        const auto output = run ({ command.begin(), redirection }, folder).output;
        if (redirection != command.end())
            folder.write (command.back(), output);
        outputs[command.front()] = output;
    }

    REQUIRE_FALSE (outputs.empty());
    return outputs;
}
} // namespace

TEST_CASE ("A tech goes from the wanted tuning to a sheet for the case, as README says", "[walkthrough]")
{
    const TemporaryFolder folder;
    const auto outputs = follow ("The tech", folder);
    CHECK (contains (outputs.at ("predict"), "wires on"));
    // The last plan knows what the test turn did.
    CHECK (contains (outputs.at ("plan"), "batter"));
    CHECK (std::filesystem::exists (folder.path() / "case.pdf"));
}

TEST_CASE ("A producer picks among tunings by figures and by ear, and takes stems along, as README says", "[walkthrough]")
{
    const TemporaryFolder folder;
    const auto outputs = follow ("The producer", folder);
    CHECK (contains (outputs.at ("compare"), "ring, wires on"));

    // None is clipped.
    for (const char* name : { "try-1.wav", "try-2.wav", "try-3.wav" })
    {
        const auto wav = readWav (readBytes (folder.path() / name));
        CHECK (std::all_of (wav.samples.begin(), wav.samples.end(), [] (auto s) { return std::abs (s) < 1.0; }));
    }

    for (const char* name : { "take-above.wav", "take-below.wav", "take-distant.wav" })
        CHECK (std::filesystem::exists (folder.path() / name));
}

TEST_CASE ("A teacher makes a lesson of their own, as README says", "[walkthrough]")
{
    const TemporaryFolder folder;
    follow ("The teacher", folder);

    for (const char* page : { "lesson/index.html", "lesson/exercise.html" })
        CHECK (std::filesystem::exists (folder.path() / page));
}

TEST_CASE ("The drum note that a tech reads is the one in the JSON and on the sheet", "[walkthrough]")
{
    const TemporaryFolder folder;
    const std::vector<std::string> tuning{ "maple-14x5", "--batter-note", "G#3", "--interval", "P4" };
    const auto with = [&] (std::vector<std::string> arguments, const std::vector<std::string>& more)
    {
        arguments.insert (arguments.end(), tuning.begin(), tuning.end());
        arguments.insert (arguments.end(), more.begin(), more.end());
        return run (arguments, folder).output;
    };
    const auto json = with ({ "predict" }, { "--json" });
    with ({ "sheet" }, { "--output", "sheet.json" });
    const auto sheet = files::parseJson (readBytes (folder.path() / "sheet.json"), "sheet").at ("target");
    const auto predicted = files::parseJson (json, "json");
    CHECK (sheet.at ("drum_note_hz") == predicted.at ("drum_note_hz"));
    CHECK (sheet.at ("drum_note_t60_s") == predicted.at ("drum_note_t60_s"));
    CHECK (sheet.at ("drum_note_t60_wires_on_s") == predicted.at ("drum_note_t60_wires_on_s"));
}
