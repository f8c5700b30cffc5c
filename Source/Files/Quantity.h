#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** A unit of a quantity: SI value = given value × factor + offset. */
struct Unit
{
    const char* key;    ///< ending of a file's key after the underscore: "kg_per_m2"; "" for a bare number
    const char* symbol; ///< after the number in text and messages: "kg/m2"
    double factor;
    double offset = 0.0;
    std::vector<const char*> otherSymbols = {};

    double toSi (double given) const noexcept { return given * factor + offset; }
    double fromSi (double si) const noexcept { return (si - offset) / factor; }
    bool isCalled (std::string_view text) const;
};

/** Allowed range, in SI. */
struct Limits
{
    double low;
    double high;
};

/** A kind of physical quantity with the units it may be given in: those that messages and files prefer first. */
struct Quantity
{
    const char* name; ///< "length"
    std::vector<Unit> units;
    bool mayBeBare = false; ///< text without a unit means the SI unit; where there is only one unit, it always may

    /** The one unit whose values are SI. */
    const Unit& si() const;

    /** The symbols of all units, as "in, mm or m". */
    std::string unitsListed() const;

    /** Limits in the unit that says them shortest: "0.5 to 30 mm". */
    std::string limitsText (const Limits&) const;

    static const Quantity length, volume, thickness, tension, force, arealDensity, frequency, temperature, share, pressure, speed,
        time, mass, angle, pureNumber, gasDensity, resistance, cents, viscosity, soundPressure, bendingStiffness,
        contactStiffness, elasticModulus, stiffness, damping, contactLoss, decayRate, acceleration;
};

/** Throws modal::InputError, in the unit given, unless the value is finite and within limits; returns it in SI. */
double inLimits (double given, const Unit& unit, const Limits&, const std::string& field);

/** Reads "14in", "14 in" or "355.6 mm" to SI. Throws modal::InputError naming `field`, the text and what is allowed. */
double readQuantity (std::string_view text, const Quantity&, const Limits&, const std::string& field);

/** The same, but nullopt if the text is not a number with one of the quantity's units, so that the caller can read it another
 * way. */
std::optional<double> takeQuantity (std::string_view text, const Quantity&);

/** An SI value in the first unit in which six digits are exact, else in SI: 0.3556 m becomes 14 in. */
struct Spelled
{
    double value;
    const Unit* unit;
};
Spelled spell (double si, const Quantity&);

/** Limits in a unit for messages: "3.94 to 59.1 in". */
std::string asText (const Limits&, const Unit&);

} // namespace files
