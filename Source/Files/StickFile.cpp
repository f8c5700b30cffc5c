// The stick of a drum file.

#include "DrumFile.h"
#include "DrumWords.h"
#include "Fields.h"
#include "PartPresets.h"

#include <algorithm>

namespace files
{

using namespace modal;

namespace
{

/** What files gave before a stick had a body: the mass that it presents at its tip and at the hoop, and how stiff both are. */
struct PointStick
{
    double tipMass = 0.014, tipStiffness = 8.0e5, shaftMass = 0.045, shaftStiffness = 3.0e7, exponent = 1.5,
           loss = 0.25;
};

PointStick readPoints (ObjectReader& reader)
{
    PointStick points;
    const auto read = [&] (const char* name, const Quantity& quantity, const Limits& limits, double& to)
    {
        if (const auto value = reader.number (name, quantity, limits))
            to = *value;
    };
    read ("tip_mass", Quantity::mass, { 1.0e-3, 0.2 }, points.tipMass);
    read ("tip_stiffness", Quantity::contactStiffness, { 1.0e3, 1.0e9 }, points.tipStiffness);
    read ("tip_exponent", Quantity::pureNumber, { 1.0, 4.0 }, points.exponent);
    read ("tip_loss", Quantity::contactLoss, { 0.0, 10.0 }, points.loss);
    read ("shaft_mass", Quantity::mass, { 1.0e-3, 0.3 }, points.shaftMass);
    read ("shaft_stiffness", Quantity::contactStiffness, { 1.0e4, 1.0e10 }, points.shaftStiffness);
    return points;
}

} // namespace

StickSpec stickOfPoints (double tipMass, double tipStiffness, const StickSpec& like)
{
    const PointStick usual;
    const auto& density = numberOf (&StickSpec::woodDensity);
    StickSpec stick = like;
    // The ratio first: for the usual stick it is 1, and the density stays what it is to the last bit.
    stick.woodDensity = std::clamp (tipMass / usual.tipMass * StickSpec{}.woodDensity, density.low, density.high);
    stick.tipMaterial = tipStiffness > 2.0 * usual.tipStiffness ? StickSpec::TipMaterial::nylon : StickSpec::TipMaterial::wood;
    return stick;
}

StickSpec namedStick (const std::string& name, const std::string& path)
{
    return partNamed (stickPresets(), name, "a stick", path);
}

StickSpec readStick (const Json& value, const std::string& path)
{
    if (value.is_string())
        return namedStick (value.get<std::string>(), path);

    ObjectReader reader (value, path);
    const PointStick points = readPoints (reader);
    StickSpec stick = stickOfPoints (points.tipMass, points.tipStiffness);
    stick.contactDamping = points.loss;
    if (const auto tip = reader.choice ("tip", tipMaterialWords))
        stick.tipMaterial = static_cast<StickSpec::TipMaterial> (*tip);
    if (const auto material = reader.choice ("brush_material", brushMaterialWords))
        stick.brushMaterial = static_cast<StickSpec::BrushMaterial> (*material);
    readNumbers (reader, stick);
    reader.finish();
    return stick;
}

Json stickAsJson (const StickSpec& stick)
{
    Json object = Json::object();
    const StickSpec usual;
    if (stick.tipMaterial != usual.tipMaterial)
        object["tip"] = tipMaterialWords[static_cast<std::size_t> (stick.tipMaterial)];
    if (stick.brushMaterial != usual.brushMaterial)
        object["brush_material"] = brushMaterialWords[static_cast<std::size_t> (stick.brushMaterial)];
    writeNumbers (object, stick, &usual);
    return object;
}

} // namespace files
