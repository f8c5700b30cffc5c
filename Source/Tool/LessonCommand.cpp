#include "Command.h"
#include "OutputFile.h"
#include "Progress.h"
#include "WavFile.h"

#include "Modal/InputError.h"
#include "Sheets/LessonPage.h"
#include "Sheets/WebPage.h"

#include <cstdio>
#include <filesystem>

namespace tool
{
namespace
{
/** Writes the page last, when everything it shows exists. */
void writeFolder (const std::filesystem::path& folder, const sheets::PlayedLesson& played)
{
    std::error_code error;
    std::filesystem::create_directories (folder, error);

    if (error)
        throw OutputError ("cannot make the folder " + folder.string() + ": " + error.message());

    for (std::size_t i = 0; i < played.steps.size(); ++i)
        writeMono ((folder / sheets::LessonFileName::sound (i)).string(), played.steps[i].sound, sheets::lessonRate);

    sheets::writePages (played, sheets::browserPage(),
                        [&] (const std::string& name, std::string_view bytes) { writeText ((folder / name).string(), bytes); });
}

void runLesson (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    arguments.requireAtMost (1, "lesson");

    if (arguments.freeWords().empty())
    {
        std::string text = "Lessons:\n";

        for (const auto& name : files::lessonPresets())
            text += "  " + name + "  (" + files::openLesson (name).name + ")\n";

        writeText ("-", text);
        return;
    }

    const auto folder = arguments.value ("output");

    if (! folder || folder->empty() || *folder == "-")
        throw modal::InputError::fault ("--output", "is missing", "a folder to write");

    const auto lesson = files::openLesson (arguments.freeWords().front());
    Progress progress (false);
    writeFolder (*folder, sheets::playLesson (lesson, [&] (double share) { progress.show (share); }));

    if (sheets::browserPage().empty())
        std::fputs ("This program was built without the browser's page, so the steps play as recordings only. For steps that are "
                    "the live drum, run "
                    "\"sh Source/Web/build\" and configure and build the program again.\n",
                    stderr);
}
} // namespace

const Command& lessonCommand()
{
    static const Command command{
        "lesson",
        "Makes a lesson: a folder with web pages on which the drum plays, recordings at equal loudness and an exercise, for use "
        "offline",
        "[LESSON] --output FOLDER",
        "Without a lesson it lists the lessons. LESSON is one of them or a file; \"presets --show\" prints one to start your own "
        "from.\n"
        "Open index.html in the folder: hear a step, then drag on from there, or let it ask you by ear. The arrow keys step "
        "through the\n"
        "lesson. recordings.html plays the recordings and prints; exercise.html asks about the steps in any order and prints an "
        "answer\n"
        "sheet. Start at low volume.\n",
        { { "Output:", { { "output", "FOLDER", "created if needed" } } } },
        false,
        runLesson
    };
    return command;
}

} // namespace tool
