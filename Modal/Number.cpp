#include "Number.h"

#include <algorithm>

namespace modal
{

const char* unitOf (Dimension dimension) noexcept
{
    switch (dimension)
    {
    case Dimension::length:
    case Dimension::headThickness:
        return "m";
    case Dimension::volume:
        return "m3";
    case Dimension::angle:
        return "rad";
    case Dimension::share:
    case Dimension::ratio:
        return "";
    case Dimension::frequency:
        return "Hz";
    case Dimension::semitones:
        return "semitones";
    case Dimension::cents:
        return "cents";
    case Dimension::mass:
        return "kg";
    case Dimension::arealDensity:
        return "kg/m2";
    case Dimension::gasDensity:
        return "kg/m3";
    case Dimension::force:
        return "N";
    case Dimension::speed:
        return "m/s";
    case Dimension::pressure:
        return "Pa";
    case Dimension::temperature:
        return "K";
    case Dimension::viscosity:
        return "Pa s";
    case Dimension::resistance:
        return "N s/m3";
    case Dimension::elasticModulus:
        return "Pa";
    case Dimension::stiffness:
        return "N/m";
    case Dimension::damping:
        return "N s/m";
    case Dimension::bendingStiffness:
        return "N m2";
    case Dimension::contactStiffness:
        return "N/m^1.5";
    case Dimension::contactLoss:
        return "s/m";
    case Dimension::decayRate:
        return "1/s";
    case Dimension::acceleration:
        return "m/s2";
    }

    return "";
}

std::string nameInMessages (std::string name, const std::string& owner)
{
    std::replace (name.begin(), name.end(), '_', ' ');
    return owner.empty() ? name : owner + " " + name;
}

} // namespace modal
