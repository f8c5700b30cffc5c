#include "Wish.h"

#include "Modal/DrumNumbers.h"
#include "Modal/InputError.h"
#include "Modal/NumberText.h"
#include "Modal/pitch/Interval.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace finding
{

using Kind = FigureInfo::Kind;

namespace
{

constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double aroundNote = 10.0; ///< cents; a tech tunes a head no closer

std::string trimmed (std::string text)
{
    const auto isBlank = [] (char c) { return c == ' ' || c == '\t'; };
    text.erase (text.begin(), std::find_if_not (text.begin(), text.end(), isBlank));
    text.erase (std::find_if_not (text.rbegin(), text.rend(), isBlank).base(), text.end());
    return text;
}

/** What a wish for this figure may say. */
std::string allowedText (const FigureInfo& info)
{
    switch (info.kind)
    {
    case Kind::note:
        return "a note, or a range with a colon: D3, D3:E3, :E3 (at most), D3: (at least), 140Hz:160Hz";
    case Kind::semitones:
        return info.figure == Figure::interval
                   ? "a range of intervals with a colon: P4:P5, :P5 (at most), P4: (at least)"
                   : "stays, or a range of semitones with a colon: -4:4, :2 (at most), -2: (at least)";
    case Kind::share:
        return "a range in % with a colon: :60 (at most), 20:60";
    case Kind::decibels:
        return "a range in dB with a colon: 6: (at least), 3:9";
    case Kind::time:
        return info.figure == Figure::lasts ? "a range of times with a colon: :0.6s (at most), 0.2s:0.6s, :1beat, 1/2beat:2beats"
                                            : "a range of times with a colon: :0.6s (at most), 0.2s:0.6s";
    case Kind::frequency:
        return "a range of frequencies with a colon: 900Hz:1500Hz, :1200Hz (at most)";
    case Kind::speed:
        return "a range of speeds with a colon: :0.2m/s (at most), 0.1:0.3";
    case Kind::distance:
        return "a range of distances with a colon: 15m: (at least), 5m:30m";
    }

    return {};
}

/** A number or a fraction such as 1/2. */
std::optional<double> takeFraction (std::string_view& text)
{
    const auto number = modal::takeNumber (text);

    if (! number || text.empty() || text.front() != '/')
        return number;

    auto below = text.substr (1);
    const auto parts = modal::takeNumber (below);

    if (! parts)
        return std::nullopt;

    text = below;
    return *number / *parts;
}

/** A number with one of the units of the figure's kind, or bare. */
double readNumber (const FigureInfo& info, const std::string& text, const std::string& field, std::optional<double> tempo)
{
    std::string_view rest = text;
    const auto number = info.figure == Figure::lasts ? takeFraction (rest) : modal::takeNumber (rest);
    const auto unit = trimmed (std::string (rest));
    const auto is = [&] (std::initializer_list<const char*> names)
    { return std::find (names.begin(), names.end(), unit) != names.end(); };
    const auto refuse = [&] { return modal::InputError (field, '"' + text + '"', allowedText (info)); };

    if (! number)
        throw refuse();

    switch (info.kind)
    {
    case Kind::semitones:
        if (is ({ "", "st", "semitones", "semitone" }))
            return *number;
        if (is ({ "c", "cents" }))
            return *number / 100.0;
        break;
    case Kind::share:
        if (is ({ "", "%" }))
            return *number / 100.0;
        break;
    case Kind::decibels:
        if (is ({ "", "dB" }))
            return *number;
        break;
    case Kind::time:
        if (is ({ "", "s" }))
            return *number;
        if (is ({ "ms" }))
            return *number / 1000.0;
        if (info.figure == Figure::lasts && is ({ "beat", "beats" }))
        {
            if (! tempo)
                throw modal::InputError::fault (field, "counts in beats without a tempo", "the tempo in beats per minute");
            return *number * 60.0 / *tempo;
        }
        break;
    case Kind::note:
    case Kind::frequency:
        if (is ({ "", "Hz" }))
            return *number;
        if (is ({ "kHz" }))
            return *number * 1000.0;
        break;
    case Kind::speed:
        if (is ({ "", "m/s" }))
            return *number;
        if (is ({ "cm/s" }))
            return *number / 100.0;
        break;
    case Kind::distance:
        if (is ({ "", "m" }))
            return *number;
        break;
    }

    throw refuse();
}

double readValue (const FigureInfo& info, const std::string& text, modal::ConcertPitch pitch, const std::string& field,
                  std::optional<double> tempo)
{
    const auto isLetter = [] (char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };

    if (info.kind == Kind::note && isLetter (text.front()))
        return modal::Note::parse (text, field).frequency (pitch);

    if (info.figure == Figure::interval)
        return modal::Interval::parse (text, field).semitones;

    return readNumber (info, text, field, tempo);
}

std::string rangeText (const FigureInfo& info, Span span, modal::ConcertPitch pitch)
{
    const auto name = std::string (info.name);
    const auto text = [&] (double value) { return textOf (info.figure, value, pitch); };

    if (info.figure == Figure::batterMove || info.figure == Figure::resonantMove)
    {
        const auto head = std::string (info.figure == Figure::batterMove ? "batter" : "resonant head");

        if (std::max (std::abs (span.low), std::abs (span.high)) <= 0.1)
            return head + " stays";

        if (span.low == -span.high)
            return head + " moves at most " + modal::asText (span.high, 3) + " semitones";
    }

    if (std::isinf (span.low))
        return name + " at most " + text (span.high);

    if (std::isinf (span.high))
        return name + " at least " + text (span.low);

    return name + " " + text (span.low) + " to " + text (span.high);
}

} // namespace

Wish wishFor (Figure figure, Span span, modal::ConcertPitch pitch)
{
    const auto& info = infoOf (figure);
    const auto check = [&] (double limit)
    {
        if (! std::isinf (limit))
            modal::requireInRange (limit, { info.low, info.high, "" }, info.name);
    };
    check (span.low);
    check (span.high);

    if (! (span.low <= span.high))
        throw modal::InputError (info.name, "a range from high to low", allowedText (info));

    if (std::isinf (span.low) && std::isinf (span.high))
        throw modal::InputError (info.name, "a range without limits", allowedText (info));

    return { figure, { span }, rangeText (info, span, pitch) };
}

double nearestAllowed (const Wish& wish, double value)
{
    double nearest = wish.ranges.front().low;
    double least = unlimited;

    for (const auto& range : wish.ranges)
    {
        const double limit = std::clamp (value, range.low, range.high);
        const double steps = limit == value ? 0.0 : std::abs (stepsBetween (wish.figure, limit, value));

        if (steps < least || least == unlimited)
        {
            least = steps;
            nearest = limit;
        }
    }

    return nearest;
}

double missOf (const Wish& wish, double value)
{
    if (std::isnan (value))
        return unlimited;

    const double limit = nearestAllowed (wish, value);
    return limit == value ? 0.0 : stepsBetween (wish.figure, limit, value);
}

Wish readWish (Figure figure, const std::string& given, modal::ConcertPitch pitch, const std::string& field,
               std::optional<double> tempo)
{
    const auto& info = infoOf (figure);
    const auto text = trimmed (given);
    const bool isMove = figure == Figure::batterMove || figure == Figure::resonantMove;
    constexpr double still = 0.05; // semitones: half of what a tech hears

    if (isMove && text == "stays")
        return wishFor (figure, { -still, still }, pitch);

    const auto colon = text.find (':');

    if (text.empty() || text == ":")
        throw modal::InputError (field, '"' + given + '"', allowedText (info));

    const auto named = [&] (Span span)
    {
        try
        {
            return wishFor (figure, span, pitch);
        }
        catch (const modal::InputError& error)
        {
            throw error.of (field);
        }
    };

    if (colon == std::string::npos)
    {
        const double value = readValue (info, text, pitch, field, tempo);

        if (info.kind == Kind::note)
            return named ({ atSteps (figure, value, -aroundNote), atSteps (figure, value, aroundNote) });

        if (figure == Figure::interval)
            return named ({ value - aroundNote / 100.0, value + aroundNote / 100.0 });

        throw modal::InputError (field, '"' + given + '"', allowedText (info));
    }

    const auto limit = [&] (const std::string& part, double open)
    { return part.empty() ? open : readValue (info, part, pitch, field, tempo); };
    return named ({ limit (trimmed (text.substr (0, colon)), -unlimited), limit (trimmed (text.substr (colon + 1)), unlimited) });
}

} // namespace finding
