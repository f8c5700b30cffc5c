#include "Fields.h"

#include "Modal/Tuning.h"

namespace files
{

using namespace modal;

const NumberFields<DrumSpec>& drumFields()
{
    static const NumberFields<DrumSpec> fields{ { "diameter", &Quantity::length, { 0.1, 1.5 }, &DrumSpec::diameter },
                                                { "depth", &Quantity::length, { 0.02, 2.0 }, &DrumSpec::depth } };
    return fields;
}

const NumberFields<HeadConstruction>& headFields()
{
    using Head = HeadConstruction;
    static const NumberFields<Head> fields{ { "thickness", &Quantity::thickness, { 20.0e-6, 500.0e-6 }, &Head::plyThickness },
                                            { "coating", &Quantity::arealDensity, { 0.0, 0.2 }, &Head::coatingDensity },
                                            { "dot_diameter", &Quantity::length, { 0.0, 1.5 }, &Head::dotDiameter },
                                            { "dot_thickness", &Quantity::thickness, { 0.0, 500.0e-6 }, &Head::dotThickness },
                                            { "ring_width", &Quantity::length, { 0.0, 0.75 }, &Head::ringWidth },
                                            { "ring_thickness", &Quantity::thickness, { 0.0, 500.0e-6 }, &Head::ringThickness } };
    return fields;
}

const NumberFields<Vent>& ventFields()
{
    static const NumberFields<Vent> fields{ { "diameter", &Quantity::length, { 0.0, 0.05 }, &Vent::diameter },
                                            { "length", &Quantity::length, { 0.5e-3, 0.05 }, &Vent::length } };
    return fields;
}

const NumberFields<Shell>& shellFields()
{
    static const NumberFields<Shell> fields{ { "thickness", &Quantity::length, { 0.5e-3, 0.03 }, &Shell::thickness } };
    return fields;
}

const NumberFields<Weather>& weatherFields()
{
    static const NumberFields<Weather> fields{
        { "temperature", &Quantity::temperature, { 233.15, 333.15 }, &Weather::temperature },
        { "humidity", &Quantity::share, { 0.0, 1.0 }, &Weather::relativeHumidity },
        { "pressure", &Quantity::pressure, { 50.0e3, 120.0e3 }, &Weather::pressure }
    };
    return fields;
}

const NumberFields<Air>& airFields()
{
    static const NumberFields<Air> fields{ { "density", &Quantity::gasDensity, { 0.0, 20.0 }, &Air::density },
                                           { "sound_speed", &Quantity::speed, { 50.0, 2000.0 }, &Air::soundSpeed },
                                           { "viscosity", &Quantity::viscosity, { 0.0, 1.0e-3 }, &Air::viscosity },
                                           { "heat_ratio", &Quantity::pureNumber, { 1.0, 1.7 }, &Air::heatRatio },
                                           { "prandtl", &Quantity::pureNumber, { 0.1, 10.0 }, &Air::prandtl } };
    return fields;
}

const NumberFields<MufflingItem>& mufflingFields()
{
    static const NumberFields<MufflingItem> fields{
        { "size", &Quantity::length, { 0.005, 0.2 }, &MufflingItem::size },
        { "distance", &Quantity::length, { 0.0, 0.75 }, &MufflingItem::distance },
        { "angle", &Quantity::angle, { -7.0, 7.0 }, &MufflingItem::angle },
        { "mass", &Quantity::mass, { 0.0, 0.1 }, &MufflingItem::mass },
        { "resistance", &Quantity::resistance, { 0.0, 1.0e5 }, &MufflingItem::resistance },
    };
    return fields;
}

Limits tensionLimits (const HeadConstruction& head)
{
    return { 1.0, yieldTension (head) };
}

void writeNumber (Json::Object& object, const char* name, const Quantity& quantity, double si)
{
    const auto spelled = spell (si, quantity);
    const std::string suffix = *spelled.unit->key == '\0' ? "" : std::string ("_") + spelled.unit->key;
    object.emplace_back (name + suffix, spelled.value);
}

} // namespace files
