#pragma once

#include "ObjectReader.h"

#include "Modal/DrumSpec.h"
#include "Modal/hardware/Stick.h"
#include "Modal/hardware/Wires.h"

#include <stdexcept>

namespace files
{

/** A number of a drum: what it is called in files (before its unit) and on the command line, its quantity, and what is allowed.
 */
template <class Owner>
struct NumberField
{
    const char* name;
    const Quantity* quantity;
    Limits limits;
    double Owner::*member;
};

template <class Owner>
using NumberFields = std::vector<NumberField<Owner>>;

/** The one place that knows names and limits. The limits are those of modal's declarations. */
const NumberFields<modal::DrumSpec>& drumFields();
const NumberFields<modal::HeadConstruction>& headFields();
const NumberFields<modal::Vent>& ventFields();
const NumberFields<modal::Shell>& shellFields();
const NumberFields<modal::Weather>& weatherFields();
const NumberFields<modal::MufflingItem>& mufflingFields();
const NumberFields<modal::Air>& airFields();
const NumberFields<modal::WireSpec>& wireFields();
const NumberFields<modal::StickSpec>& stickFields();

inline constexpr int fewestLugs = 4, mostLugs = 16;
inline constexpr int mostPlies = 2;
inline constexpr int fewestStrands = 2, mostStrands = 60;
inline constexpr Limits noteLimits{ 10.0, 5000.0 };         ///< Hz
inline constexpr Limits intervalLimits{ -24.0, 24.0 };      ///< semitones
inline constexpr Limits lugLimits{ -300.0, 300.0 };         ///< cents
inline constexpr Limits concertPitchLimits{ 400.0, 480.0 }; ///< Hz
inline constexpr Limits arealDensityLimits{ 0.02, 1.5 };    ///< kg/m²

/** N/m: from a hanging film to where it yields. */
Limits tensionLimits (const modal::HeadConstruction&);

/** The field of that name; it must exist. */
template <class Owner>
const NumberField<Owner>& fieldNamed (const NumberFields<Owner>& fields, std::string_view name)
{
    for (const auto& field : fields)
        if (name == field.name)
            return field;

    throw std::logic_error ("no field " + std::string (name));
}

/** Takes those numbers that the object has. */
template <class Owner>
void readNumbers (ObjectReader& reader, const NumberFields<Owner>& fields, Owner& owner)
{
    for (const auto& field : fields)
        if (const auto value = reader.number (field.name, *field.quantity, field.limits))
            owner.*field.member = *value;
}

/** Appends a number under its name and a unit in which few digits say it exactly. */
void writeNumber (Json::Object&, const char* name, const Quantity&, double si);

/** Appends the numbers that differ from what a reader would assume without them. */
template <class Owner>
void writeNumbers (Json::Object& object, const NumberFields<Owner>& fields, const Owner& owner, const Owner& assumed)
{
    for (const auto& field : fields)
        if (owner.*field.member != assumed.*field.member)
            writeNumber (object, field.name, *field.quantity, owner.*field.member);
}

} // namespace files
