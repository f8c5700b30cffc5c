#include "Interval.h"

#include "MusicSigns.h"

#include "Modal/DrumNumbers.h"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace modal
{

namespace
{

constexpr const char* allowedIntervals =
    "P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8, a name such as \"perfect fourth\" or \"4th\", semitones \"+7 st\" or cents \"700 "
    "c\", "
    "from 24 semitones below to 24 above; a leading - means the resonant head is the lower one";

std::string lowered (std::string text)
{
    std::transform (text.begin(), text.end(), text.begin(),
                    [] (unsigned char c) { return static_cast<char> (std::tolower (c)); });
    return text;
}

std::string trimmed (const std::string& text)
{
    const auto first = text.find_first_not_of (" \t");
    return first == std::string::npos ? "" : text.substr (first, text.find_last_not_of (" \t") - first + 1);
}

/** A name that people use beside the ones in the table. */
struct Alias
{
    const char* name;
    int semitones;
};

constexpr Alias aliases[] = { { "unison", 0 },     { "semitone", 1 }, { "half step", 1 }, { "whole tone", 2 },
                              { "whole step", 2 }, { "fourth", 5 },   { "tritone", 6 },   { "diminished fifth", 6 },
                              { "d5", 6 },         { "fifth", 7 },    { "octave", 12 } };

/** The text in small letters, with "third" for "3rd" and the like. */
std::string spelledOut (const std::string& text)
{
    constexpr std::pair<const char*, const char*> ordinals[] = { { "2nd", "second" }, { "3rd", "third" }, { "4th", "fourth" },
                                                                 { "5th", "fifth" },  { "6th", "sixth" }, { "7th", "seventh" },
                                                                 { "8ve", "octave" }, { "8va", "octave" } };
    auto name = lowered (text);

    for (const auto& [figure, word] : ordinals)
        if (const auto at = name.find (figure); at != std::string::npos)
            return name.replace (at, std::string (figure).size(), word);

    return name;
}

/** Semitones of a name, or NaN. Short names are case-sensitive: m3 is minor, M3 major. */
double semitonesOfName (const std::string& text)
{
    const auto name = spelledOut (text);

    for (const auto& named : namedIntervals())
        if (text == named.shortName || name == named.longName)
            return named.semitones;

    for (const auto& alias : aliases)
        if (name == alias.name)
            return alias.semitones;

    return std::nan ("");
}

/** Semitones of a number with the unit st, semitones, c or cents, or NaN. */
double semitonesOfNumber (const std::string& text)
{
    std::string_view rest = text;
    const auto number = takeNumber (rest);

    if (! number)
        return std::nan ("");

    const auto unit = lowered (trimmed (std::string (rest)));

    if (unit == "st" || unit == "semitone" || unit == "semitones")
        return *number;

    return unit == "c" || unit == "cent" || unit == "cents" ? *number / 100.0 : std::nan ("");
}

/** Takes cents off the end of a name ("P4 -33 c", "perfect fourth +12 cents"), and returns them in semitones. */
double takeCents (std::string& text)
{
    const auto sign = text.find_last_of ("+-");

    if (sign == std::string::npos || sign == 0)
        return 0.0;

    auto rest = std::string_view (text).substr (sign);
    const auto cents = takeNumber (rest);
    const auto unit = lowered (trimmed (std::string (rest)));

    if (! cents || (unit != "c" && unit != "cents"))
        return 0.0;

    text = trimmed (text.substr (0, sign));
    return *cents / 100.0;
}

/** The named interval nearest to a size, what is left in cents away from unison, and its direction. */
struct Nearest
{
    const NamedInterval& named;
    bool isBelow;
    double cents; ///< whole
};

bool hasName (double semitones) noexcept
{
    return std::lround (std::abs (semitones)) <= 12;
}

Nearest nearest (double semitones)
{
    const long size = std::lround (std::abs (semitones));
    // A unison has no direction, so the sign of the cents gives it.
    const double beyond = size == 0 ? semitones : std::abs (semitones) - static_cast<double> (size);
    const double cents = std::round (100.0 * beyond);
    return { namedIntervals()[static_cast<std::size_t> (size)], semitones < 0.0 && size > 0, cents };
}

/** A whole number of semitones as people call it: "fourth" for a perfect fourth. */
std::string commonName (double semitones)
{
    constexpr std::string_view perfect = "perfect ";
    const std::string name = namedIntervals()[static_cast<std::size_t> (semitones)].longName;
    return name.starts_with (perfect) ? name.substr (perfect.size()) : name;
}

std::string inSemitones (double semitones, const char* unit)
{
    return (semitones > 0.0 ? "+" : "") + asText (semitones, 4) + unit;
}

} // namespace

const std::array<NamedInterval, 13>& namedIntervals()
{
    static constexpr std::array<NamedInterval, 13> intervals{ {
        { 0, "P1", "perfect unison" },
        { 1, "m2", "minor second" },
        { 2, "M2", "major second" },
        { 3, "m3", "minor third" },
        { 4, "M3", "major third" },
        { 5, "P4", "perfect fourth" },
        { 6, "A4", "augmented fourth" },
        { 7, "P5", "perfect fifth" },
        { 8, "m6", "minor sixth" },
        { 9, "M6", "major sixth" },
        { 10, "m7", "minor seventh" },
        { 11, "M7", "major seventh" },
        { 12, "P8", "perfect octave" },
    } };
    return intervals;
}

double Interval::ratio() const noexcept
{
    return std::exp2 (semitones / 12.0);
}

std::string Interval::name() const
{
    if (! hasName (semitones))
        return inSemitones (semitones, " st");

    const auto found = nearest (semitones);
    const auto text = (found.isBelow ? "-" : "") + std::string (found.named.shortName);
    return found.cents == 0 ? text : text + " " + signedText (found.cents, 0) + " c";
}

std::string Interval::longName() const
{
    constexpr double nearQuarterTone = 40.0; // cents from the nearest semitone
    const auto size = std::abs (semitones);
    const auto lower = std::floor (size), upper = std::ceil (size);
    const auto isBetween = 100.0 * std::abs (size - std::round (size)) >= nearQuarterTone;

    if (! hasName (isBetween ? upper : size))
        return inSemitones (semitones, " semitones");

    if (isBetween)
        return "between " + commonName (lower) + " and " + commonName (upper) + (semitones < 0.0 ? " below" : "");

    const auto found = nearest (semitones);
    auto text = std::string (found.named.longName);

    if (found.cents != 0)
        text += " " + signedText (found.cents, 0) + " cents";

    return found.isBelow ? text + " below" : text;
}

Interval Interval::parse (const std::string& text, const std::string& field)
{
    auto rest = trimmed (plainSigns (text));
    double semitones = semitonesOfNumber (rest);

    if (std::isnan (semitones) && ! rest.empty())
    {
        const bool isBelow = rest[0] == '-';
        rest = trimmed (rest.substr (isBelow || rest[0] == '+' ? 1 : 0));
        constexpr const char* below = " below";
        const bool saysBelow = rest.size() > 6 && lowered (rest.substr (rest.size() - 6)) == below;
        if (saysBelow)
            rest = rest.substr (0, rest.size() - 6);
        const double beyond = takeCents (rest);
        semitones = (semitonesOfName (rest) + beyond) * (isBelow != saysBelow ? -1.0 : 1.0);
    }

    const auto& limits = numberOf (&Interval::semitones);

    if (! (semitones >= limits.low && semitones <= limits.high))
        throw InputError (field, "\"" + text + "\"", allowedIntervals);

    return { semitones };
}

} // namespace modal
