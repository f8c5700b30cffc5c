#include "Command.h"
#include "OutputFile.h"
#include "TextTable.h"

#include "Files/DrumWords.h"
#include "Files/HeadText.h"
#include "Files/HoopNames.h"
#include "Files/LessonFile.h"
#include "Files/PartPresets.h"
#include "Files/Presets.h"

#include "Modal/InputError.h"
#include "Modal/hardware/StickBody.h"

namespace tool
{
namespace
{
std::string tuningNames (const files::DrumFile& file)
{
    std::string names;

    for (const auto& tuning : file.tunings)
        names += (names.empty() ? "" : "; ") + tuning.name;

    return names;
}

std::string drumTable()
{
    TextTable table ({ Column::left, Column::left, Column::left, Column::left, Column::left });
    table.add ({ "DRUM", "", "BATTER", "RESONANT", "TUNINGS" });

    for (const auto& preset : files::drumPresets())
    {
        const auto file = files::openDrum (preset.name);
        table.add ({ preset.name, file.drum.name, files::headText (file.drum.batter),
                     file.drum.hasResonantHead() ? files::headText (file.drum.resonant) : "none", tuningNames (file) });
    }

    return table.written (0);
}

std::string headTable()
{
    TextTable table ({ Column::left, Column::left, Column::left });
    table.add ({ "HEAD", "", "SAME AS" });

    for (const auto& preset : files::headPresets())
        table.add ({ preset.name, preset.description, files::headText (preset.part) });

    return table.written (0);
}

std::string wireTable()
{
    TextTable table ({ Column::left, Column::left, Column::right, Column::right, Column::right });
    table.add ({ "WIRES", "", "STRANDS", "TENSION PER STRAND", "WIRE PRESSURE" });

    for (const auto& preset : files::wirePresets())
        table.add ({ preset.name, preset.description, std::to_string (preset.part.strands),
                     modal::fixedText (preset.part.strandTension, 2) + " N",
                     modal::fixedText (1.0e3 * preset.part.pressDepth, 2) + " mm" });

    return table.written (0);
}

std::string hoopTable()
{
    TextTable table ({ Column::left, Column::left });
    table.add ({ "HOOPS", "" });

    for (const auto& hoop : files::hoopNames())
        table.add ({ hoop.name, hoop.description });

    return table.written (0);
}

std::string lessonTable()
{
    TextTable table ({ Column::left, Column::left });
    table.add ({ "LESSON", "" });

    for (const auto& name : files::lessonPresets())
        table.add ({ name, files::openLesson (name).name });

    return table.written (0);
}

std::string tipText (const modal::StickSpec& stick)
{
    if (stick.isBrush())
        return modal::asText (stick.brushWires) + " wires of " +
               files::brushMaterialWords[static_cast<std::size_t> (stick.brushMaterial)] + ", " +
               modal::asText (1.0e3 * stick.brushWireDiameter, 2) + " mm";
    return files::tipMaterialWords[static_cast<std::size_t> (stick.tipMaterial)];
}

std::string stickTable()
{
    TextTable table ({ Column::left, Column::left, Column::right, Column::right, Column::right, Column::left });
    table.add ({ "STICK", "", "SIZE", "WEIGHT", "MASS AT THE TIP", "TIP" });

    for (const auto& preset : files::stickPresets())
    {
        const auto body = modal::solveStick (preset.part);
        table.add ({ preset.name, preset.description,
                     modal::fixedText (1.0e3 * preset.part.length, 0) + " x " +
                         modal::fixedText (1.0e3 * preset.part.diameter, 1) + " mm",
                     modal::fixedText (1.0e3 * body.mass, 0) + " g",
                     body.isBrush() ? "-" : modal::fixedText (1.0e3 * body.rigidMassAt (body.tipPlace), 1) + " g",
                     tipText (preset.part) });
    }

    return table.written (0);
}

std::string placeTable()
{
    TextTable table ({ Column::left, Column::left, Column::right, Column::right });
    table.add ({ "PLACE", "", "REVERBERATION AT 1 KHZ", "LISTENER AT" });

    for (const auto& preset : files::placePresets())
    {
        const auto& place = preset.part;
        table.add ({ preset.name, preset.description,
                     place.kind == place::Place::Kind::room ? modal::asText (place.times[3], 3) + " s" : "-",
                     modal::asText (place.listenerDistance, 3) + " m" });
    }

    return table.written (0);
}

/** The text of a preset, or of a drum file as the program writes it. */
std::string textOf (const std::string& name)
{
    if (const auto* drum = files::findDrumPreset (name))
        return std::string (drum->text);
    if (const auto* head = files::findPart (files::headPresets(), name))
        return std::string (head->text);
    if (const auto* wires = files::findPart (files::wirePresets(), name))
        return std::string (wires->text);
    if (const auto* lesson = files::findLessonPreset (name))
        return std::string (*lesson);
    if (const auto* stick = files::findPart (files::stickPresets(), name))
        return std::string (stick->text);
    if (const auto* place = files::findPart (files::placePresets(), name))
        return std::string (place->text);

    try
    {
        return files::writeDrum (files::openDrum (name));
    }
    catch (const modal::InputError& e)
    {
        throw e.field() == "drum"
            ? modal::InputError ("--show", '"' + name + '"', "a name that \"snarewright presets\" lists, or a drum file")
            : e;
    }
}

void runPresets (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    arguments.requireAtMost (0, "");

    if (const auto name = arguments.value ("show"))
        writeText ("-", textOf (*name));
    else
        writeText ("-", drumTable() + "\n" + headTable() + "\n" + wireTable() + "\n" + hoopTable() + "\n" + stickTable() + "\n" +
                            placeTable() + "\n" + lessonTable());
}
} // namespace

const Command& presetsCommand()
{
    static const Command command{
        "presets", "Lists the drums, heads, wires, hoops, sticks, places and lessons that come with the program", "[--show NAME]",
        "",        { { "Output:", { { "show", "NAME", "print one as a file, to start your own from" } } } },      false,
        runPresets
    };
    return command;
}

} // namespace tool
