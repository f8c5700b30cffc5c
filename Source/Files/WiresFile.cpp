// The snare wires of a drum file, and the stick.

#include "DrumFile.h"
#include "Fields.h"
#include "PartPresets.h"

namespace files
{

using namespace modal;

WireSpec namedWires (const std::string& name, const std::string& path)
{
    return partNamed (wirePresets(), name, "wires", path);
}

WireSpec readWires (const Json& value, const std::string& path, WireSpec wires)
{
    if (value.is_string())
        return namedWires (value.get<std::string>(), path);

    ObjectReader reader (value, path);

    // In the order of false and true.
    if (const auto lever = reader.choice ("strainer", { "off", "on" }))
        wires.on = *lever == 1;
    if (const auto strands = reader.count (strandCount))
        wires.strands = *strands;

    readNumbers (reader, wires);
    reader.finish();
    return wires;
}

Json wiresAsJson (const WireSpec& wires)
{
    Json object{ { "strainer", wires.on ? "on" : "off" }, { "strands", wires.strands } };
    const WireSpec usual;
    writeNumbers (object, wires, &usual);
    return object;
}

} // namespace files
