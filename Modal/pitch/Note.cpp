#include "Note.h"

#include "MusicSigns.h"

#include "Modal/DrumNumbers.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

namespace modal
{

namespace
{

constexpr std::array<const char*, 12> noteNames{ "C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B" };
constexpr std::array<int, 7> semitoneOfLetter{ 9, 11, 0, 2, 4, 5, 7 }; // A to G
constexpr const char* allowedNotes = "a note from C-1 to G9 such as G#3, Ab3 or \"G#3 +12\" (cents)";

std::string withoutSpaces (const std::string& text)
{
    std::string out;

    for (const char c : text)
        if (c != ' ' && c != '\t')
            out += c;

    return out;
}

} // namespace

double Note::frequency (ConcertPitch pitch) const noexcept
{
    return pitch.a4 * std::exp2 ((midi - 69 + cents / 100.0) / 12.0);
}

std::string Note::name() const
{
    const int step = (midi % 12 + 12) % 12;
    const int octave = (midi - step) / 12 - 1; // scientific pitch notation: C4 is middle C, MIDI 60
    return noteNames[static_cast<std::size_t> (step)] + std::to_string (octave);
}

std::string Note::nameWithCents() const
{
    const long whole = std::lround (cents);
    return whole == 0 ? name() : name() + (whole > 0 ? " +" : " ") + std::to_string (whole);
}

double midiOfHertz (double hertz, ConcertPitch pitch) noexcept
{
    return 69.0 + 12.0 * std::log2 (hertz / pitch.a4);
}

Note Note::fromFrequency (double hertz, ConcertPitch pitch)
{
    if (! (hertz > 0.0) || ! std::isfinite (hertz))
        throw InputError ("frequency", asText (hertz) + " Hz", "above 0 Hz");

    const double semitones = midiOfHertz (hertz, pitch);
    const double nearest = std::round (semitones);
    return { static_cast<int> (nearest), 100.0 * (semitones - nearest) };
}

Note Note::parse (const std::string& text, const std::string& field)
{
    const auto refuse = [&] { return InputError (field, "\"" + text + "\"", allowedNotes); };
    const auto compact = withoutSpaces (plainSigns (text));

    if (compact.empty())
        throw refuse();

    const int letter = std::toupper (static_cast<unsigned char> (compact[0])) - 'A';

    if (letter < 0 || letter > 6)
        throw refuse();

    int semitone = semitoneOfLetter[static_cast<std::size_t> (letter)];
    std::size_t position = 1;

    if (position < compact.size() && (compact[position] == '#' || compact[position] == 'b'))
        semitone += compact[position++] == '#' ? 1 : -1;

    // The octave is one digit, or -1; what follows are cents with their sign.
    const bool isNegative = position < compact.size() && compact[position] == '-';
    position += isNegative ? 1 : 0;

    if (position >= compact.size() || compact[position] < '0' || compact[position] > '9')
        throw refuse();

    const int octave = (isNegative ? -1 : 1) * (compact[position++] - '0');
    Note note{ 12 * (octave + 1) + semitone, 0.0 };

    if (position < compact.size())
    {
        const bool hasSign = compact[position] == '+' || compact[position] == '-';
        auto rest = std::string_view (compact).substr (position);
        const auto cents = takeNumber (rest);

        if (! hasSign || ! cents || (! rest.empty() && rest != "c" && rest != "cents"))
            throw refuse();

        note.cents = *cents;
    }

    if (note.midi < 0 || note.midi > 127 || std::abs (note.cents) > 100.0)
        throw refuse();

    return note;
}

double centsBetween (double fromHertz, double toHertz)
{
    return 1200.0 * std::log2 (toHertz / fromHertz);
}

void check (ConcertPitch pitch)
{
    checkNumbers (pitch, "");
}

} // namespace modal
