#include "RunProgram.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include <csignal>

namespace
{
const std::vector<std::string> longRender{ "render", "maple-14x5", "--length", "600s", "--rate", "192000", "--output" };

std::vector<std::string> with (std::vector<std::string> words, const std::string& last)
{
    words.push_back (last);
    return words;
}
} // namespace

TEST_CASE ("An interrupted render leaves no file", "[output]")
{
    for (const int signal : { SIGINT, SIGTERM })
    {
        CAPTURE (signal);
        const TemporaryFolder folder;
        bool wasWriting = false;
        const auto run = interruptProgram (with (longRender, "strike.wav"), folder.path(), signal,
                                           [&] { return wasWriting = folder.count() > 0; });
        CHECK (wasWriting);
        CHECK (run.status == 130);
        CHECK (folder.count() == 0);
    }
}

TEST_CASE ("An interrupted render with a file per microphone leaves no file", "[output]")
{
    const TemporaryFolder folder;
    bool wasWriting = false;
    auto words = with (longRender, "strike.wav");
    words.emplace_back ("--each");
    const auto run = interruptProgram (words, folder.path(), SIGINT, [&] { return wasWriting = folder.count() == 3; });
    CHECK (wasWriting);
    CHECK (run.status == 130);
    CHECK (folder.count() == 0);
}

TEST_CASE ("An interrupted render leaves the file that was there before", "[output]")
{
    const TemporaryFolder folder;
    folder.write ("strike.wav", "before");
    interruptProgram (with (longRender, "strike.wav"), folder.path(), SIGINT, [&] { return folder.count() > 1; });
    CHECK (folder.count() == 1);
    CHECK (readBytes (folder.path() / "strike.wav") == "before");
}

TEST_CASE ("Output that cannot be written ends with status 1 and a reason", "[output]")
{
    const TemporaryFolder folder;
    std::filesystem::create_directory (folder.path() / "taken");

    for (const auto* target : { "taken", "no/such/folder/x.json" })
    {
        CAPTURE (target);
        const auto run = runProgram ({ "predict", "maple-14x5", "--json", target }, folder.path());
        CHECK (run.status == 1);
        CHECK (contains (run.errors, std::string ("cannot write ") + target));
    }

    CHECK (folder.count() == 1);
    CHECK (runProgram ({ "render", "maple-14x5", "--output", "no/such/x.wav" }, folder.path()).status == 1);
}

TEST_CASE ("A full disk is reported", "[output]")
{
    // /dev/full is always full.
    if (! std::filesystem::exists ("/dev/full"))
        return;

    const TemporaryFolder folder;
    CHECK (runProgram ({ "predict", "maple-14x5", "--json", "/dev/full" }, folder.path()).status == 1);
    CHECK (runProgram ({ "render", "maple-14x5", "--length", "10ms", "--output", "/dev/full" }, folder.path()).status == 1);
    CHECK (std::filesystem::is_character_file ("/dev/full"));
}

TEST_CASE ("A written file leaves no temporary file, and a link stays a link", "[output]")
{
    const TemporaryFolder folder;
    folder.write ("real.json", "old");
    std::filesystem::create_symlink ("real.json", folder.path() / "link.json");

    CHECK (runProgram ({ "predict", "maple-14x5", "--json", "link.json" }, folder.path()).status == 0);
    CHECK (folder.count() == 2);
    CHECK (std::filesystem::is_symlink (folder.path() / "link.json"));
    CHECK (readBytes (folder.path() / "real.json").starts_with ("{"));
}

TEST_CASE ("Output does not overwrite a drum file", "[output]")
{
    const TemporaryFolder folder;
    const auto preset = runProgram ({ "presets", "--show", "maple-14x5" }).output;
    folder.write ("drum.json", preset);
    CHECK (runProgram ({ "predict", "maple-14x5", "--json", "drum.json" }, folder.path()).status == 2);
    CHECK (readBytes (folder.path() / "drum.json") == preset);
}

TEST_CASE ("Help names every command and every option", "[output]")
{
    const auto general = runProgram ({ "--help" });
    CHECK (general.status == 0);
    CHECK (runProgram ({}).output == general.output);

    for (const std::string command : { "predict", "compare", "modes", "render", "presets" })
    {
        CAPTURE (command);
        CHECK (contains (general.output, "\n  " + command));
        const auto help = runProgram ({ command, "--help" });
        CHECK (help.status == 0);
        CHECK (help.errors.empty());
        CHECK (contains (help.output, "Usage: snarewright " + command));
    }

    const auto render = runProgram ({ "render", "--help" }).output;
    CHECK (render.find ("--output FILE.wav  ") < render.find ("--diameter")); // a command's own options first

    for (const std::string part : { "--output", "--position", "--speed", "--rate", "--bits", "--batter-note", "--bottom",
                                    "--pattern", "--midi", "--wires", "--each", "--distant-at", "harms hearing" })
    {
        CAPTURE (part);
        CHECK (contains (render, part));
    }
}

TEST_CASE ("The version is one line", "[output]")
{
    const auto run = runProgram ({ "--version" });
    CHECK (run.status == 0);
    CHECK (run.output.starts_with ("snarewright "));
}
