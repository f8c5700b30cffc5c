#include "FittingOptions.h"

#include "OptionText.h"

#include "Files/DrumFile.h"
#include "Files/DrumWords.h"

#include <cctype>

namespace tool
{

using namespace files;

namespace
{
/** "off", "on", how many strands, or the name of a set. */
void overrideWires (const Arguments& arguments, modal::WireSpec& wires)
{
    auto text = arguments.value ("wires");

    if (! text)
        return;

    if (*text == "off" || *text == "on")
    {
        wires.on = *text == "on";
        return;
    }

    if (! text->empty() && std::isalpha (static_cast<unsigned char> (text->front())) != 0)
    {
        wires = namedWires (*text, "--wires (off, on, how many strands, or by name)");
        return;
    }

    constexpr std::string_view unit = " strands";

    if (text->ends_with (unit))
        text->resize (text->size() - unit.size());

    wires.strands = readCount (*text, fewestStrands, mostStrands, "--wires (off, on, how many strands, or by name)");
    wires.on = true;
}
} // namespace

const OptionGroup& fittingOptions()
{
    static const OptionGroup group{
        "Wires, hoops and stick, for playing the drum:",
        { { "wires", "off|on|20|NAME", "thrown off, on, how many strands, 2 to 60, or wires that \"presets\" lists" },
          { "strainer", "4N", "pull on each strand, 0.05 to 30 N" },
          { "press", "0.2mm", "wires drawn into the head, -2 (a gap) to 2 mm" },
          { "bed", "1.5mm", "depth of the snare beds in the bearing edge, 0 to 5 mm" },
          { "strand-mass", "1.1g", "0.1 to 5 g" },
          { "hoop", "\"flanged 1.6 mm\"", "or \"flanged 2.3 mm\", cast, wood" },
          { "tip-mass", "14g", "what counts of the stick at its tip, 1 to 200 g" },
          { "tip-stiffness", "8e5", "of tip and film, N/m^1.5, 1e3 to 1e9: hard tips are brighter" } }
    };
    return group;
}

void overrideFittings (const Arguments& arguments, modal::Fittings& fittings)
{
    overrideWires (arguments, fittings.wires);
    overrideField (arguments, "strainer", wireFields(), "strand_tension", fittings.wires);
    overrideField (arguments, "press", wireFields(), "press_depth", fittings.wires);
    overrideField (arguments, "bed", wireFields(), "bed_depth", fittings.wires);
    overrideField (arguments, "strand-mass", wireFields(), "strand_mass", fittings.wires);
    overrideChoice (arguments, "hoop", hoopWords, fittings.hoop.kind);
    overrideField (arguments, "tip-mass", stickFields(), "tip_mass", fittings.stick);
    overrideField (arguments, "tip-stiffness", stickFields(), "tip_stiffness", fittings.stick);
}

} // namespace tool
