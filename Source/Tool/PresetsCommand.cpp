#include "Command.h"
#include "DrumOptions.h"
#include "OutputFile.h"
#include "TextTable.h"

#include "Files/HeadText.h"
#include "Files/Presets.h"

namespace tool
{
namespace
{
std::string tuningNames (const files::DrumFile& file)
{
    std::string names;

    for (const auto& tuning : file.tunings)
        names += (names.empty() ? "" : ", ") + tuning.name;

    return names;
}

std::string presetTable()
{
    TextTable table ({ Align::left, Align::left, Align::left, Align::left, Align::left });
    table.add ({ "PRESET", "DRUM", "BATTER", "RESONANT", "TUNINGS" });

    for (const auto& preset : files::drumPresets())
    {
        const auto file = files::openDrum (preset.name);
        table.add ({ preset.name, file.drum.name, files::headText (file.drum.batter),
                     file.drum.hasResonantHead() ? files::headText (file.drum.resonant) : "none", tuningNames (file) });
    }

    return table.written (0);
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    arguments.requireAtMost (0, "");

    if (const auto name = arguments.value ("show"))
        writeText ("-", files::writeDrum (files::openDrum (*name)));
    else
        writeText ("-", presetTable());
}
} // namespace

const Command& presetsCommand()
{
    static const Command command{ "presets",
                                  "The drums that come with the program",
                                  "[--show NAME]",
                                  "",
                                  { { "Output:", { { "show", "NAME", "one preset as a drum file, to start your own from" } } } },
                                  false,
                                  run };
    return command;
}

} // namespace tool
