#pragma once

#include "InputError.h"

namespace modal
{

/** What kind of quantity a number is. All values are in the SI unit that unitOf() names. */
enum class Dimension
{
    length,
    volume,
    headThickness, ///< a length; heads are sold by the mil
    angle,
    share, ///< of a whole, 0 to 1
    ratio, ///< any other number without a unit
    frequency,
    semitones,
    cents,
    mass,
    arealDensity,
    gasDensity,
    force,
    speed,
    pressure,
    temperature,
    viscosity,
    resistance,       ///< force per area and speed
    elasticModulus,
    stiffness,        ///< force per length
    damping,          ///< force per speed
    bendingStiffness, ///< moment per curvature
    contactStiffness, ///< of a Hertz contact
    contactLoss,      ///< Hunt-Crossley
    decayRate,
    acceleration
};

/** "m", "N/m^1.5"; "" without a unit. */
const char* unitOf (Dimension) noexcept;

/** One number of a drum: its name, meaning and limits. Its default is that of the member. */
template <class Owner, class Value = double>
struct Number
{
    const char* name;    ///< words joined by underscores: the key in files without its unit
    const char* meaning; ///< for help texts
    Dimension dimension;
    Value Owner::*member;
    double low, high; ///< what is allowed, in SI

    Range range() const noexcept { return { low, high, unitOf (dimension) }; }
};

template <class Owner>
using Count = Number<Owner, int>;

/** "dot_diameter" of "batter" as "batter dot diameter". */
std::string nameInMessages (std::string name, const std::string& owner);

/** Throws InputError naming the number after `owner` ("batter dot diameter") if it is out of range. */
template <class Owner, class Value>
void check (const Number<Owner, Value>& number, const Owner& values, const std::string& owner)
{
    requireInRange (values.*number.member, number.range(), nameInMessages (number.name, owner));
}

} // namespace modal
