#include "Quantity.h"

#include "NearestWord.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace files
{
namespace
{
using namespace modal::units;

constexpr double percent = 0.01;
constexpr double hectopascal = 100.0;
constexpr double fahrenheit = 5.0 / 9.0;
constexpr double zeroFahrenheit = zeroCelsius - 32.0 * fahrenheit;

std::string withUnit (const std::string& number, const Unit& unit)
{
    return number + (*unit.symbol == '\0' ? "" : " ") + unit.symbol;
}

/** Four digits, but whole numbers in full. */
std::string limitText (double value)
{
    return modal::asText (value, std::abs (value) < 1000.0 ? 4 : 9);
}

std::string_view trimmed (std::string_view text)
{
    const auto first = text.find_first_not_of (" \t");
    return first == std::string_view::npos ? std::string_view() : text.substr (first, text.find_last_not_of (" \t") - first + 1);
}

struct NumberAndUnit
{
    double number;
    std::string_view unitText;
    const Unit* unit; ///< nullptr if the text behind the number is no unit of the quantity
};

std::optional<NumberAndUnit> split (std::string_view text, const Quantity& quantity)
{
    text = trimmed (text);
    const auto number = modal::takeNumber (text);

    if (! number)
        return std::nullopt;

    const auto unitText = trimmed (text);
    const auto& units = quantity.units;
    const auto unit = std::find_if (units.begin(), units.end(), [&] (const Unit& u) { return u.isCalled (unitText); });

    if (unit != units.end())
        return NumberAndUnit{ *number, unitText, &*unit };

    const auto mayBeBare = quantity.mayBeBare || units.size() == 1;
    return NumberAndUnit{ *number, unitText, unitText.empty() && mayBeBare ? &quantity.si() : nullptr };
}

/** What is the matter with the text behind a number, if it is no unit of the quantity. */
const char* faultOf (std::string_view unitText)
{
    if (unitText.empty())
        return " (no unit)";

    const auto isDecimalComma = unitText.size() > 1 && unitText[0] == ',' && unitText[1] >= '0' && unitText[1] <= '9';
    return isDecimalComma ? " (a comma)" : " (unknown unit)";
}
} // namespace

const Quantity Quantity::length{ "length",
                                 { { "in", "in", inch, 0.0, { "\"", "″", "inch", "inches" } },
                                   { "mm", "mm", millimetre },
                                   { "cm", "cm", 10.0 * millimetre },
                                   { "m", "m", 1.0 } } };
const Quantity Quantity::volume{ "volume", { { "m3", "m3", 1.0, 0.0, { "m³" } } } };
const Quantity Quantity::thickness{ "thickness",
                                    { { "mil", "mil", mil, 0.0, { "mils" } },
                                      { "mm", "mm", millimetre },
                                      { "um", "um", 1.0e-6, 0.0, { "µm", "μm" } },
                                      { "in", "in", inch, 0.0, { "\"" } },
                                      { "m", "m", 1.0 } } };
const Quantity Quantity::tension{ "tension", { { "n_per_m", "N/m", 1.0 } } };
const Quantity Quantity::force{ "force", { { "n", "N", 1.0 } } };
const Quantity Quantity::arealDensity{
    "areal density", { { "g_per_m2", "g/m2", 1.0e-3, 0.0, { "g/m²" } }, { "kg_per_m2", "kg/m2", 1.0, 0.0, { "kg/m²" } } }
};
const Quantity Quantity::frequency{ "frequency", { { "hz", "Hz", 1.0, 0.0, { "hz" } }, { "khz", "kHz", 1000.0 } } };
const Quantity Quantity::temperature{
    "temperature",
    { { "c", "C", 1.0, zeroCelsius, { "°C" } }, { "f", "F", fahrenheit, zeroFahrenheit, { "°F" } }, { "k", "K", 1.0 } }
};
const Quantity Quantity::share{ "share", { { "percent", "%", percent }, { "", "", 1.0 } } };
const Quantity Quantity::pressure{ "pressure", { { "hpa", "hPa", hectopascal }, { "kpa", "kPa", 1000.0 }, { "pa", "Pa", 1.0 } } };
const Quantity Quantity::speed{ "speed", { { "m_per_s", "m/s", 1.0 } } };
const Quantity Quantity::time{ "time", { { "ms", "ms", 1.0e-3 }, { "s", "s", 1.0 } } };
const Quantity Quantity::mass{ "mass", { { "g", "g", 1.0e-3 }, { "kg", "kg", 1.0 } } };
const Quantity Quantity::angle{ "angle", { { "deg", "deg", pi / 180.0, 0.0, { "°" } }, { "rad", "rad", 1.0 } } };
const Quantity Quantity::pureNumber{ "number", { { "", "", 1.0 } } };
const Quantity Quantity::gasDensity{ "density", { { "kg_per_m3", "kg/m3", 1.0, 0.0, { "kg/m³" } } } };
const Quantity Quantity::resistance{ "resistance", { { "n_s_per_m3", "N s/m3", 1.0 } } };
const Quantity Quantity::cents{ "interval", { { "cents", "cents", 1.0, 0.0, { "c", "" } } } };
const Quantity Quantity::viscosity{ "viscosity", { { "pa_s", "Pa s", 1.0 } } };
const Quantity Quantity::elasticModulus{ "modulus of elasticity", { { "gpa", "GPa", 1.0e9 }, { "pa", "Pa", 1.0 } } };
const Quantity Quantity::stiffness{ "stiffness", { { "n_per_m", "N/m", 1.0 } } };
const Quantity Quantity::damping{ "damping", { { "n_s_per_m", "N s/m", 1.0, 0.0, { "N·s/m" } } } };
const Quantity Quantity::bendingStiffness{ "bending stiffness", { { "n_m2", "N m2", 1.0, 0.0, { "N m²" } } } };
const Quantity Quantity::contactStiffness{ "contact stiffness", { { "n_per_m15", "N/m^1.5", 1.0 } } };
const Quantity Quantity::contactLoss{ "contact loss", { { "s_per_m", "s/m", 1.0 } } };
const Quantity Quantity::decayRate{ "decay rate", { { "per_s", "1/s", 1.0 } } };
const Quantity Quantity::acceleration{ "acceleration", { { "m_per_s2", "m/s2", 1.0, 0.0, { "m/s²" } } } };
const Quantity Quantity::soundPressure{ "sound pressure", { { "pa", "Pa", 1.0 } } };

bool Unit::isCalled (std::string_view text) const
{
    return text == symbol || std::find (otherSymbols.begin(), otherSymbols.end(), text) != otherSymbols.end();
}

const Unit& Quantity::si() const
{
    return *std::find_if (units.begin(), units.end(), [] (const Unit& unit) { return unit.factor == 1.0 && unit.offset == 0.0; });
}

std::string Quantity::unitsListed() const
{
    std::vector<std::string> symbols;

    for (const auto& unit : units)
        if (*unit.symbol != '\0')
            symbols.emplace_back (unit.symbol);

    return listed (symbols);
}

std::string Quantity::limitsText (const Limits& limits) const
{
    std::string shortest;

    for (const auto& unit : units)
        if (const auto text = asText (limits, unit); shortest.empty() || text.size() < shortest.size())
            shortest = text;

    return shortest;
}

std::string asText (const Limits& limits, const Unit& unit)
{
    return limitText (unit.fromSi (limits.low)) + " to " + withUnit (limitText (unit.fromSi (limits.high)), unit);
}

double inLimits (double given, const Unit& unit, const Limits& limits, const std::string& field)
{
    const auto si = unit.toSi (given);

    // A limit converted to the person's unit and back may be off by a rounding; it is still allowed.
    const auto slack = 1.0e-12 * std::max (std::abs (limits.low), std::abs (limits.high));

    if (! std::isfinite (si) || si < limits.low - slack || si > limits.high + slack)
        throw modal::InputError (field, withUnit (modal::asText (given), unit), asText (limits, unit));

    return std::clamp (si, limits.low, limits.high);
}

double readQuantity (std::string_view text, const Quantity& quantity, const Limits& limits, const std::string& field)
{
    const auto parts = split (text, quantity);
    const auto quoted = "\"" + std::string (text) + "\"";
    const auto units = quantity.unitsListed();
    const auto allowed =
        (units.empty() ? "a number without a unit, " : "a number with its unit (" + units + "), ") + quantity.limitsText (limits);

    if (! parts)
        throw modal::InputError (field, quoted, allowed);

    if (parts->unit == nullptr)
        throw modal::InputError (field, quoted + faultOf (parts->unitText),
                                 allowed + (parts->unitText.starts_with (',') ? ", with a decimal point" : ""));

    return inLimits (parts->number, *parts->unit, limits, field);
}

std::optional<double> takeQuantity (std::string_view text, const Quantity& quantity)
{
    const auto parts = split (text, quantity);
    return parts && parts->unit != nullptr ? std::optional (parts->unit->toSi (parts->number)) : std::nullopt;
}

Spelled spell (double si, const Quantity& quantity)
{
    for (const auto& unit : quantity.units)
    {
        const auto sixDigits = modal::asText (unit.fromSi (si));
        std::string_view rest = sixDigits;
        const auto rounded = modal::takeNumber (rest);

        if (rounded && unit.toSi (*rounded) == si)
            return { *rounded, &unit };
    }

    return { si, &quantity.si() };
}

} // namespace files
