#include "ParameterText.h"

#include "Files/NearestWord.h"
#include "Files/TuningRequest.h"

#include "Modal/InputError.h"
#include "Modal/pitch/Interval.h"
#include "Modal/pitch/Note.h"

#include <cctype>
#include <cmath>

namespace plugin
{
namespace
{
std::string trimmed (const std::string& text)
{
    const auto first = text.find_first_not_of (" \t\r\n");
    return first == std::string::npos ? "" : text.substr (first, text.find_last_not_of (" \t\r\n") - first + 1);
}

std::string lowered (std::string text)
{
    for (auto& c : text)
        c = static_cast<char> (std::tolower (static_cast<unsigned char> (c)));
    return text;
}

/** A number, alone or followed by one of these symbols. */
std::optional<double> numberBefore (const std::string& text, std::initializer_list<const char*> symbols)
{
    std::string_view rest = text;
    const auto isSigned = rest.starts_with ('+');

    if (isSigned)
        rest.remove_prefix (1);

    const auto number = modal::takeNumber (rest);

    if (! number)
        return std::nullopt;

    const auto unit = lowered (trimmed (std::string (rest)));

    if (unit.empty())
        return number;

    for (const auto* symbol : symbols)
        if (unit == symbol)
            return number;

    return std::nullopt;
}

std::string rangeOf (const ParameterSpec& spec)
{
    return textOf (spec, spec.low) + " to " + textOf (spec, spec.high);
}

double inRange (double value, const std::string& text, const ParameterSpec& spec)
{
    // A limit typed in another unit may be off by rounding.
    const auto slack = 1.0e-9 * (spec.high - spec.low);

    if (! std::isfinite (value) || value < spec.low - slack || value > spec.high + slack)
        throw modal::InputError (spec.name, text, rangeOf (spec));

    return spec.snapped (value);
}

[[noreturn]] void refuse (const std::string& text, const ParameterSpec& spec, const std::string& allowed)
{
    throw modal::InputError (spec.name, '"' + text + '"', allowed);
}

/** A bare number, else a note or a frequency. */
double noteFrom (const std::string& text, const ParameterSpec& spec, double concertPitch)
{
    if (const auto number = numberBefore (text, {}))
        return *number;

    const modal::ConcertPitch pitch{ concertPitch };
    return modal::midiOfHertz (files::readNote (text, pitch, spec.name), pitch);
}

double intervalFrom (const std::string& text, const ParameterSpec& spec)
{
    if (const auto number = numberBefore (text, {}))
        return *number;

    return modal::Interval::parse (text, spec.name).semitones;
}

double quantityFrom (const std::string& text, const ParameterSpec& spec)
{
    const auto& unit = spec.unit();
    const auto bare = numberBefore (text, {});
    const auto si = bare ? unit.toSi (*bare)
                         : files::readQuantity (text, *spec.quantity, { unit.toSi (spec.low), unit.toSi (spec.high) }, spec.name);
    return unit.fromSi (si);
}

double panFrom (const std::string& text, const ParameterSpec& spec)
{
    const auto word = lowered (text);

    if (word == "centre" || word == "middle")
        return 0.0;

    for (const auto& [side, sign] : { std::pair{ "left", -1.0 }, std::pair{ "right", 1.0 } })
        if (word.starts_with (side))
        {
            const auto rest = trimmed (word.substr (std::string_view (side).size()));
            if (rest.empty())
                return sign;
            if (const auto share = numberBefore (rest, { "%" }))
                return sign * *share / 100.0;
        }

    if (const auto number = numberBefore (text, {}))
        return *number;

    refuse (text, spec, "left 100 % to right 100 %, or centre");
}

double choiceFrom (const std::string& text, const ParameterSpec& spec)
{
    if (! text.empty())
        for (const auto* words : { &spec.words, &spec.formerWords })
            for (std::size_t i = 0; i < words->size(); ++i)
                if (lowered (text) == lowered ((*words)[i]))
                    return static_cast<double> (i);

    refuse (text, spec, files::listed (spec.words));
}

double toggleFrom (const std::string& text, const ParameterSpec& spec)
{
    const auto word = lowered (text);

    if (word == "on" || word == "yes" || word == "1" || word == "true")
        return 1.0;
    if (word == "off" || word == "no" || word == "0" || word == "false")
        return 0.0;

    refuse (text, spec, "on or off");
}

double numberFrom (const std::string& text, const ParameterSpec& spec, std::initializer_list<const char*> symbols)
{
    if (const auto number = numberBefore (text, symbols))
        return *number;

    refuse (text, spec, rangeOf (spec));
}

std::string signedText (double value, const char* unit)
{
    return (value > 0.0 ? "+" : "") + modal::asText (value, 4) + " " + unit;
}

/** The unit as it is usually written, where files have ASCII; can be typed too. */
std::string written (const char* symbol)
{
    static constexpr std::pair<std::string_view, const char*> known[] = { { "C", "°C" },
                                                                          { "g/m2", "g/m²" },
                                                                          { "N s/m3", "N·s/m³" } };
    for (const auto& [plain, pretty] : known)
        if (plain == symbol)
            return pretty;
    return symbol;
}

std::string quantityText (const ParameterSpec& spec, double value)
{
    const auto& unit = spec.unit();

    // Stiffness is tens of millions: shown in thousands.
    if (spec.quantity->units.size() > 1 && &unit == &spec.quantity->si() && value >= 1.0e4)
    {
        const auto& larger = spec.quantity->units.front();
        return modal::asText (larger.fromSi (unit.toSi (value)), 5) + " " + written (larger.symbol);
    }

    return modal::asText (value, 5) + " " + written (unit.symbol);
}

std::string noteText (double value)
{
    const auto midi = std::lround (value);
    return modal::Note{ static_cast<int> (midi), 100.0 * (value - static_cast<double> (midi)) }.nameWithCents();
}

std::string panText (double value)
{
    const auto percent = std::lround (100.0 * value);
    return percent == 0 ? "centre" : (percent < 0 ? "left " : "right ") + std::to_string (std::abs (percent)) + " %";
}
} // namespace

std::string textOf (const ParameterSpec& spec, double value)
{
    if (spec.lowestText != nullptr && value <= spec.low)
        return spec.lowestText;

    switch (spec.measure)
    {
    case Measure::quantity:
        return quantityText (spec, value);
    case Measure::note:
        return noteText (value);
    case Measure::interval:
        return modal::Interval{ value }.name();
    case Measure::cents:
        return signedText (value, "c");
    case Measure::decibels:
        return signedText (value, "dB");
    case Measure::pan:
        return panText (value);
    case Measure::whole:
        return std::to_string (std::lround (value));
    case Measure::choice:
        return spec.words[static_cast<std::size_t> (spec.snapped (value))];
    case Measure::toggle:
        return value >= 0.5 ? "on" : "off";
    }

    return {};
}

double valueFrom (const std::string& given, const ParameterSpec& spec, double concertPitch)
{
    const auto text = trimmed (given);

    if (spec.lowestText != nullptr && lowered (text) == spec.lowestText)
        return spec.low;

    const auto value = [&]
    {
        switch (spec.measure)
        {
        case Measure::note:
            return noteFrom (text, spec, concertPitch);
        case Measure::interval:
            return intervalFrom (text, spec);
        case Measure::quantity:
            return quantityFrom (text, spec);
        case Measure::cents:
            return numberFrom (text, spec, { "c", "cent", "cents" });
        case Measure::decibels:
            return numberFrom (text, spec, { "db" });
        case Measure::pan:
            return panFrom (text, spec);
        case Measure::whole:
            return numberFrom (text, spec, {});
        case Measure::choice:
            return choiceFrom (text, spec);
        case Measure::toggle:
            return toggleFrom (text, spec);
        }
        return 0.0;
    }();

    return inRange (value, text, spec);
}

} // namespace plugin
