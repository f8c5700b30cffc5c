#include "PatternText.h"

#include "MidiNotes.h"

#include "Modal/InputError.h"

#include <array>
#include <cctype>
#include <optional>

namespace score
{

namespace
{

constexpr int usualDynamic = 6;
constexpr const char* allowedLetters =
    "o c h e r k z d s w for strokes, each with 1 to 9 for how hard, - after s or w to sweep on for another step, . for a rest, | for a bar line";

struct Letter
{
    char letter;
    engine::StrokeKind kind;
    double position; ///< share of the radius
    bool sweepsStraight = false;
};

constexpr std::array<Letter, 10> letters{ {
    { 'o', engine::StrokeKind::tip, 0.25 },
    { 'c', engine::StrokeKind::tip, 0.03 },
    { 'h', engine::StrokeKind::tip, 0.5 },
    { 'e', engine::StrokeKind::tip, 0.88 },
    { 'r', engine::StrokeKind::rimshot, 0.25 },
    { 'k', engine::StrokeKind::crossStick, 0.45 },
    { 'z', engine::StrokeKind::buzz, 0.3 },
    { 'd', engine::StrokeKind::doubleStroke, 0.25 },
    { 's', engine::StrokeKind::sweep, 0.5 },
    { 'w', engine::StrokeKind::sweep, 0.85, true },
} };

std::optional<Letter> letterOf (char c)
{
    for (const auto& entry : letters)
        if (entry.letter == std::tolower (static_cast<unsigned char> (c)))
            return entry;

    return {};
}

bool takesNoTime (char c) noexcept
{
    return c == '|' || std::isspace (static_cast<unsigned char> (c)) != 0;
}

bool isDynamic (char c) noexcept
{
    return c >= '1' && c <= '9';
}

/** The whole character at a place, also where UTF-8 makes it of several bytes. */
std::string characterAt (const std::string& text, std::size_t at)
{
    auto end = at + 1;

    while (end < text.size() && (static_cast<unsigned char> (text[end]) & 0xc0) == 0x80)
        ++end;

    return text.substr (at, end - at);
}

double stepLength (const PatternTempo& tempo) noexcept
{
    return 60.0 / tempo.beatsPerMinute / tempo.stepsPerBeat;
}

/** Dynamics 1 to 9 are the MIDI velocities 14 to 126. */
double speedOfDynamic (int dynamic, engine::StrokeKind kind) noexcept
{
    return speedOfVelocity (14 * dynamic, kind);
}

} // namespace

Score readPattern (const std::string& text, const PatternTempo& tempo, const std::string& field)
{
    modal::requireInRange (tempo.beatsPerMinute, tempoRange, "tempo");
    modal::requireInRange (tempo.stepsPerBeat, { 1, 16, "steps a beat" }, "steps");

    Score strokes;
    int step = 0;
    bool acceptsDynamic = false, sweepGoesOn = false;

    for (std::size_t i = 0; i < text.size(); ++i)
    {
        const char c = text[i];

        if (takesNoTime (c))
            continue;

        if (acceptsDynamic && isDynamic (c))
        {
            strokes.back().stroke.speed = speedOfDynamic (c - '0', strokes.back().stroke.kind);
            acceptsDynamic = false;
            continue;
        }

        if (c == '-' && sweepGoesOn)
        {
            strokes.back().stroke.sweepTime = ++step * stepLength (tempo) - strokes.back().time;
            acceptsDynamic = false;
            continue;
        }

        const auto letter = letterOf (c);
        acceptsDynamic = letter.has_value();
        sweepGoesOn = letter && letter->kind == engine::StrokeKind::sweep;

        if (! letter && c != '.')
            throw modal::InputError (field, "'" + characterAt (text, i) + "' at position " + std::to_string (i + 1),
                                     allowedLetters);

        if (letter)
        {
            engine::Stroke stroke;
            stroke.kind = letter->kind;
            stroke.position = letter->position;
            stroke.speed = speedOfDynamic (usualDynamic, letter->kind);
            stroke.sweepsStraight = letter->sweepsStraight;
            stroke.sweepTime = stepLength (tempo);
            strokes.push_back ({ step * stepLength (tempo), stroke });
        }

        ++step;
    }

    if (strokes.empty())
        throw modal::InputError::fault (field, "has no stroke", allowedLetters);

    return strokes;
}

double patternLength (const std::string& text, const PatternTempo& tempo)
{
    int steps = 0;

    for (const char c : text)
        steps += takesNoTime (c) || isDynamic (c) ? 0 : 1;

    return steps * stepLength (tempo);
}

} // namespace score
