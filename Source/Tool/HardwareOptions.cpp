#include "HardwareOptions.h"

#include "OptionText.h"

#include "Files/DrumFile.h"
#include "Files/DrumWords.h"
#include "Files/HoopNames.h"

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

    try
    {
        if (! text->empty() && std::isalpha (static_cast<unsigned char> (text->front())) != 0)
        {
            wires = namedWires (*text, "--wires");
            return;
        }

        constexpr std::string_view unit = " strands";

        if (text->ends_with (unit))
            text->resize (text->size() - unit.size());

        wires.strands = readCount (*text, modal::strandCount, "--wires");
        wires.on = true;
    }
    catch (const modal::InputError& e)
    {
        throw e.orAllowed ("; or off, on, a number of strands (" + limitsText (modal::strandCount) + "), or a set by name");
    }
}
} // namespace

const OptionGroup& hardwareOptions()
{
    static const OptionGroup group{
        "Wires, hoops and stick (for played sound):",
        { { "wires", "off|on|20|NAME",
            "off, on, number of strands, " + limitsText (modal::strandCount) + ", or a set that \"presets\" lists" },
          { "strainer", "0.65N", "strainer tension per strand, " + limitsText (&modal::WireSpec::strandTension) },
          { "press", "0.03mm",
            "wire pressure against the head, as depth (negative: a gap), " + limitsText (&modal::WireSpec::pressDepth) },
          { "bed", "1.5mm", "depth of the snare beds, " + limitsText (&modal::WireSpec::bedDepth) },
          { "strand-mass", "1.1g", "mass of one strand, " + limitsText (&modal::WireSpec::strandMass) },
          { "plate-mass", "4g", "mass of each end plate of the wires, " + limitsText (&modal::WireSpec::plateMass) },
          { "straps", "18mm", "strap or cord between end plate and bearing edge, " + limitsText (&modal::WireSpec::strapLength) },
          { "strap-loss", "0.2", "loss factor of strap or cord, " + limitsText (&modal::WireSpec::strapLoss) },
          { "hoop", "NAME", "hoops that \"presets\" lists" },
          { "stick", "NAME", "one that \"presets\" lists" },
          { "tip", "wood|nylon|felt", "of the stick: harder is brighter" },
          { "stick-density", "800kg/m3", "density of the stick's wood, " + limitsText (&modal::StickSpec::woodDensity) } }
    };
    return group;
}

void overrideFittings (const Arguments& arguments, modal::Fittings& fittings)
{
    overrideWires (arguments, fittings.wires);
    overrideNumber (arguments, "strainer", &modal::WireSpec::strandTension, fittings.wires);
    overrideNumber (arguments, "press", &modal::WireSpec::pressDepth, fittings.wires);
    overrideNumber (arguments, "bed", &modal::WireSpec::bedDepth, fittings.wires);
    overrideNumber (arguments, "strand-mass", &modal::WireSpec::strandMass, fittings.wires);
    overrideNumber (arguments, "plate-mass", &modal::WireSpec::plateMass, fittings.wires);
    overrideNumber (arguments, "straps", &modal::WireSpec::strapLength, fittings.wires);
    overrideNumber (arguments, "strap-loss", &modal::WireSpec::strapLoss, fittings.wires);
    if (const auto name = arguments.value ("hoop"))
        fittings.hoop = namedHoop (*name, "--hoop");
    if (const auto name = arguments.value ("stick"))
        fittings.stick = namedStick (*name, "--stick");
    overrideChoice (arguments, "tip", tipMaterialWords, fittings.stick.tipMaterial);
    overrideNumber (arguments, "stick-density", &modal::StickSpec::woodDensity, fittings.stick);
}

} // namespace tool
