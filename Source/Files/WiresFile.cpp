// The snare wires of a drum file, and the stick.

#include "DrumFile.h"
#include "Fields.h"
#include "NearestWord.h"
#include "PartPresets.h"

#include "Modal/InputError.h"

namespace files
{

using namespace modal;

const NumberFields<WireSpec>& wireFields()
{
    static const NumberFields<WireSpec> fields{
        { "strand_mass", &Quantity::mass, { 0.1e-3, 5.0e-3 }, &WireSpec::strandMass },
        { "length_share", &Quantity::share, { 0.5, 0.96 }, &WireSpec::lengthShare },
        { "bed_width", &Quantity::length, { 5.0e-3, 0.12 }, &WireSpec::bedWidth },
        { "strand_tension", &Quantity::force, { 0.05, 30.0 }, &WireSpec::strandTension },
        { "press_depth", &Quantity::length, { -2.0e-3, 2.0e-3 }, &WireSpec::pressDepth },
        { "bed_depth", &Quantity::length, { 0.0, 5.0e-3 }, &WireSpec::bedDepth },
        { "bed_span", &Quantity::length, { 0.02, 0.2 }, &WireSpec::bedSpan },
        { "unevenness", &Quantity::share, { 0.0, 0.5 }, &WireSpec::unevenness },
    };
    return fields;
}

WireSpec namedWires (const std::string& name, const std::string& path)
{
    if (const auto* preset = findPart (wirePresets(), name))
        return preset->part;

    std::vector<std::string> names;

    for (const auto& preset : wirePresets())
        names.push_back (preset.name);

    throw InputError (path, '"' + name + '"', "wires by name: " + listed (names));
}

WireSpec readWires (const Json& value, const std::string& path)
{
    if (const auto* name = value.text())
        return namedWires (*name, path);

    WireSpec wires;
    ObjectReader reader (value, path);

    // In the order of false and true.
    if (const auto lever = reader.choice ("strainer", { "off", "on" }))
        wires.on = *lever == 1;
    if (const auto strands = reader.count ("strands", fewestStrands, mostStrands))
        wires.strands = *strands;

    readNumbers (reader, wireFields(), wires);
    reader.finish();
    return wires;
}

const NumberFields<StickSpec>& stickFields()
{
    static const Quantity stiffness{ "tip stiffness", { { "n_per_m15", "N/m^1.5", 1.0 } }, true };
    static const NumberFields<StickSpec> fields{
        { "tip_mass", &Quantity::mass, { 1.0e-3, 0.2 }, &StickSpec::mass },
        { "tip_stiffness", &stiffness, { 1.0e3, 1.0e9 }, &StickSpec::stiffness },
        { "shaft_mass", &Quantity::mass, { 1.0e-3, 0.3 }, &StickSpec::shaftMass },
        { "shaft_stiffness", &stiffness, { 1.0e4, 1.0e10 }, &StickSpec::shaftStiffness },
    };
    return fields;
}

StickSpec readStick (const Json& value, const std::string& path)
{
    StickSpec stick;
    ObjectReader reader (value, path);
    readNumbers (reader, stickFields(), stick);
    reader.finish();
    return stick;
}

Json stickAsJson (const StickSpec& stick)
{
    Json::Object object;
    writeNumbers (object, stickFields(), stick, StickSpec{});
    return object;
}

Json wiresAsJson (const WireSpec& wires)
{
    Json::Object object{ { "strainer", wires.on ? "on" : "off" }, { "strands", wires.strands } };
    writeNumbers (object, wireFields(), wires, WireSpec{});
    return object;
}

} // namespace files
