#include "Modal/pitch/Note.h"
#include "Modal/InputError.h"
#include "Modal/pitch/Interval.h"
#include "tests/Catch.h"

#include <cmath>

namespace
{
struct TemperedNote
{
    const char* name;
    int midi;
    double hertz;
};

// Equal temperament on A4 = 440 Hz (ISO 16), frequencies to two decimals as any table of it prints them.
constexpr TemperedNote tempered[] = { { "A0", 21, 27.50 },   { "C2", 36, 65.41 },   { "E2", 40, 82.41 },   { "A2", 45, 110.00 },
                                      { "C3", 48, 130.81 },  { "F#3", 54, 185.00 }, { "G3", 55, 196.00 },  { "G#3", 56, 207.65 },
                                      { "A3", 57, 220.00 },  { "B3", 59, 246.94 },  { "C4", 60, 261.63 },  { "C#4", 61, 277.18 },
                                      { "D#4", 63, 311.13 }, { "A4", 69, 440.00 },  { "C8", 108, 4186.01 } };
} // namespace

TEST_CASE ("Notes have the frequencies of equal temperament", "[note]")
{
    for (const auto& entry : tempered)
    {
        CAPTURE (entry.name);
        const auto note = modal::Note::parse (entry.name, "note");
        CHECK (note.midi == entry.midi);
        CHECK (std::abs (note.frequency() - entry.hertz) < 0.00501);
        CHECK (note.name() == entry.name);

        const auto back = modal::Note::fromFrequency (note.frequency());
        CHECK (back.midi == entry.midi);
        CHECK (std::abs (back.cents) < 1.0e-9);
    }
}

TEST_CASE ("Frequencies beyond MIDI's notes have names too", "[note]")
{
    // An octave is a factor of two: A4 is 440 Hz (ISO 16).
    CHECK (modal::Note::fromFrequency (440.0 / 64.0).nameWithCents() == "A-2");
    CHECK (modal::Note::fromFrequency (440.0 * 32.0).nameWithCents() == "A9");
}

TEST_CASE ("Concert pitch moves every note by the same ratio", "[note]")
{
    for (const double a4 : { 415.0, 432.0, 442.0, 466.0 })
    {
        CHECK (modal::Note{ 69 }.frequency ({ a4 }) == Approx (a4).epsilon (1.0e-14));
        CHECK (modal::Note{ 56 }.frequency ({ a4 }) / modal::Note{ 56 }.frequency() == Approx (a4 / 440.0).epsilon (1.0e-13));
        CHECK (modal::Note::fromFrequency (a4, { a4 }).midi == 69);
    }
    CHECK_THROWS_AS (modal::check (modal::ConcertPitch{ 399.0 }), modal::InputError);
    CHECK_THROWS_AS (modal::check (modal::ConcertPitch{ 481.0 }), modal::InputError);
    CHECK_THROWS_AS (modal::check (modal::ConcertPitch{ std::nan ("") }), modal::InputError);
}

TEST_CASE ("Enharmonic spellings and cents are read", "[note]")
{
    const auto sameAs = [] (const char* text, int midi, double cents)
    {
        CAPTURE (text);
        const auto note = modal::Note::parse (text, "note");
        CHECK (note.frequency() == Approx (modal::Note{ midi, cents }.frequency()).epsilon (1.0e-12));
    };
    sameAs ("Ab3", 56, 0.0);
    sameAs ("A\u266d3", 56, 0.0);
    sameAs ("G\u266f3 \u221220", 56, -20.0);
    sameAs ("g#3", 56, 0.0);
    sameAs ("Cb4", 59, 0.0);
    sameAs ("B#3", 60, 0.0);
    sameAs ("g#3 +12c", 56, 12.0);
    sameAs ("G#3-5", 56, -5.0);
    sameAs ("A4 +50", 69, 50.0);
    sameAs ("C-1", 0, 0.0);
}

TEST_CASE ("What is not a note is refused", "[note]")
{
    for (const char* text :
         { "", "H3", "G", "3G", "G#", "G##x3", "G#3 +", "G#3 12 34", "G#99", "C-2", "nan", "G#3 cents", "A4 +9999" })
    {
        CAPTURE (text);
        try
        {
            modal::Note::parse (text, "batter-note");
            FAIL_CHECK ("was read as a note");
        }
        catch (const modal::InputError& error)
        {
            CHECK (error.field() == "batter-note");
            CHECK_FALSE (error.allowed().empty());
        }
    }
}

TEST_CASE ("Cents are hundredths of a semitone", "[note]")
{
    CHECK (modal::centsBetween (220.0, 440.0) == Approx (1200.0));
    CHECK (modal::centsBetween (440.0, 220.0) == Approx (-1200.0));
    // A just fifth is 701.955 cents, the syntonic comma 21.506 (any text on tuning).
    CHECK (modal::centsBetween (2.0, 3.0) == Approx (701.955).epsilon (1.0e-6));
    CHECK (modal::centsBetween (80.0, 81.0) == Approx (21.506).epsilon (1.0e-4));
}

TEST_CASE ("Intervals are read by short name, long name, semitones and cents", "[interval]")
{
    const std::pair<const char*, double> texts[] = { { "P1", 0 },
                                                     { "m2", 1 },
                                                     { "M2", 2 },
                                                     { "m3", 3 },
                                                     { "M3", 4 },
                                                     { "P4", 5 },
                                                     { "A4", 6 },
                                                     { "P5", 7 },
                                                     { "m6", 8 },
                                                     { "M6", 9 },
                                                     { "m7", 10 },
                                                     { "M7", 11 },
                                                     { "P8", 12 },
                                                     { "-m2", -1 },
                                                     { "-P4", -5 },
                                                     { "unison", 0 },
                                                     { "minor second", 1 },
                                                     { "major second", 2 },
                                                     { "minor third", 3 },
                                                     { "major third", 4 },
                                                     { "perfect fourth", 5 },
                                                     { "fourth", 5 },
                                                     { "augmented fourth", 6 },
                                                     { "perfect fifth", 7 },
                                                     { "fifth", 7 },
                                                     { "minor sixth", 8 },
                                                     { "major sixth", 9 },
                                                     { "minor seventh", 10 },
                                                     { "major seventh", 11 },
                                                     { "octave", 12 },
                                                     { "+7 st", 7 },
                                                     { "700 c", 7 },
                                                     { "-3 st", -3 },
                                                     { "minor 3rd", 3 },
                                                     { "5th", 7 },
                                                     { "\u2212m2", -1 },
                                                     { "550 c", 5.5 } };
    for (const auto& [text, semitones] : texts)
    {
        CAPTURE (text);
        CHECK (modal::Interval::parse (text, "interval").semitones == Approx (semitones).margin (1.0e-12));
    }

    CHECK (modal::Interval{ 12.0 }.ratio() == Approx (2.0).epsilon (1.0e-15));
    CHECK (modal::Interval{ 5.0 }.ratio() == Approx (std::pow (2.0, 5.0 / 12.0)).epsilon (1.0e-14));
    CHECK (modal::Interval{ 5.0 }.name() == "P4");
    CHECK (modal::Interval{ 5.0 }.longName() == "perfect fourth");
    CHECK (modal::Interval{ 5.12 }.name() == "P4 +12 c");
    CHECK (modal::Interval{ -1.0 }.name() == "-m2");
    CHECK (modal::Interval{ -1.0 }.longName() == "minor second below");
    CHECK (modal::Interval{ 5.12 }.longName() == "perfect fourth +12 cents");
    CHECK (modal::Interval{ 5.41 }.longName() == "between fourth and augmented fourth");
    CHECK (modal::Interval{ 12.45 }.longName() == "+12.45 semitones");

    for (const auto& named : modal::namedIntervals())
    {
        CHECK (modal::Interval::parse (named.shortName, "interval").semitones == named.semitones);
        CHECK (modal::Interval::parse (named.longName, "interval").semitones == named.semitones);
    }
}

TEST_CASE ("What is not an interval is refused", "[interval]")
{
    for (const char* text : { "", "P9x", "Q4", "fourthish", "30 st", "-2500 c", "nan st", "5 km" })
    {
        CAPTURE (text);
        CHECK_THROWS_AS (modal::Interval::parse (text, "interval"), modal::InputError);
    }
}
