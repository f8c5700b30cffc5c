#include "Fields.h"

#include <stdexcept>

namespace files
{

const Quantity& quantityOf (modal::Dimension dimension)
{
    using modal::Dimension;

    switch (dimension)
    {
    case Dimension::length:
        return Quantity::length;
    case Dimension::volume:
        return Quantity::volume;
    case Dimension::headThickness:
        return Quantity::thickness;
    case Dimension::angle:
        return Quantity::angle;
    case Dimension::share:
        return Quantity::share;
    case Dimension::ratio:
    case Dimension::semitones:
        return Quantity::pureNumber;
    case Dimension::frequency:
        return Quantity::frequency;
    case Dimension::cents:
        return Quantity::cents;
    case Dimension::mass:
        return Quantity::mass;
    case Dimension::arealDensity:
        return Quantity::arealDensity;
    case Dimension::gasDensity:
        return Quantity::gasDensity;
    case Dimension::force:
        return Quantity::force;
    case Dimension::speed:
        return Quantity::speed;
    case Dimension::pressure:
        return Quantity::pressure;
    case Dimension::temperature:
        return Quantity::temperature;
    case Dimension::viscosity:
        return Quantity::viscosity;
    case Dimension::resistance:
        return Quantity::resistance;
    case Dimension::elasticModulus:
        return Quantity::elasticModulus;
    case Dimension::stiffness:
        return Quantity::stiffness;
    case Dimension::damping:
        return Quantity::damping;
    case Dimension::bendingStiffness:
        return Quantity::bendingStiffness;
    case Dimension::contactStiffness:
        return Quantity::contactStiffness;
    case Dimension::contactLoss:
        return Quantity::contactLoss;
    case Dimension::decayRate:
        return Quantity::decayRate;
    case Dimension::acceleration:
        return Quantity::acceleration;
    }

    throw std::logic_error ("a dimension without units");
}

Limits tensionLimits (const modal::HeadConstruction& head)
{
    return limitsOf (modal::tensionRange (head));
}

std::string limitsText (modal::Dimension dimension, const Limits& limits)
{
    return quantityOf (dimension).limitsText (limits);
}

void writeNumber (Json& object, const char* name, const Quantity& quantity, double si)
{
    const auto spelled = spell (si, quantity);
    const std::string suffix = *spelled.unit->key == '\0' ? "" : std::string ("_") + spelled.unit->key;
    object[name + suffix] = spelled.value;
}

} // namespace files
