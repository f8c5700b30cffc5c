#pragma once

#include "ObjectReader.h"

#include "Modal/DrumNumbers.h"

namespace files
{

/** The numbers of modal::numbersOf in files and as text: each by its name, in the units of its quantity. */

/** The units in which a number of that dimension may be given. */
const Quantity& quantityOf (modal::Dimension);

inline Limits limitsOf (const modal::Range& range)
{
    return { range.low, range.high };
}

template <class Owner>
Limits limitsOf (const modal::Number<Owner>& number)
{
    return { number.low, number.high };
}

/** N/m, from all but slack to yield. */
Limits tensionLimits (const modal::HeadConstruction&);

/** Limits for help texts, in the unit that says them shortest: "0.5 to 30 mm". */
std::string limitsText (modal::Dimension, const Limits&);

template <class Owner>
std::string limitsText (double Owner::*member)
{
    const auto& number = modal::numberOf (member);
    return limitsText (number.dimension, limitsOf (number));
}

template <class Owner>
std::string limitsText (const modal::Count<Owner>& count)
{
    return modal::asText (count.low) + " to " + modal::asText (count.high);
}

/** Reads a number with its unit, "14in". Throws modal::InputError on `field`. */
template <class Owner>
double readQuantity (std::string_view text, double Owner::*member, const std::string& field)
{
    const auto& number = modal::numberOf (member);
    return readQuantity (text, quantityOf (number.dimension), limitsOf (number), field);
}

/** Takes those numbers that the object has. */
template <class Owner>
void readNumbers (ObjectReader& reader, Owner& owner)
{
    for (const auto& number : modal::numbersOf<Owner>)
        if (const auto value = reader.number (number.name, quantityOf (number.dimension), limitsOf (number)))
            owner.*number.member = *value;
}

/** Appends a number under its name and a unit in which few digits say it exactly. */
void writeNumber (Json&, const char* name, const Quantity&, double si);

/** Appends all numbers, or only those that differ from the reader's defaults. */
template <class Owner>
void writeNumbers (Json& object, const Owner& owner, const Owner* assumed = nullptr)
{
    for (const auto& number : modal::numbersOf<Owner>)
        if (assumed == nullptr || owner.*number.member != assumed->*number.member)
            writeNumber (object, number.name, quantityOf (number.dimension), owner.*number.member);
}

} // namespace files
