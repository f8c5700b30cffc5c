#include "Finding/Song.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Modal/InputError.h"

using finding::Figure;

TEST_CASE ("A key becomes drum notes on its tones", "[song]")
{
    finding::Song song;
    song.key = finding::Key::parse ("D minor", "--key");
    CHECK (song.key->name() == "D minor");
    const auto wishes = wishesFor (song);
    REQUIRE (wishes.size() == 1);
    CHECK (contains (wishes.front().text, "D, F, A"));
    CHECK (contains (wishes.front().reason, "common practice, no source"));

    // ISO 16, equal temperament: F3 174.61 Hz and A3 220 Hz are tones of the chord, E3 164.81 Hz is not.
    CHECK (missOf (wishes.front(), 174.614) == 0.0);
    CHECK (missOf (wishes.front(), 220.0) == 0.0);
    CHECK (std::abs (missOf (wishes.front(), 164.814)) == Approx (85.0).margin (0.1));

    song.tones = finding::KeyTones::scale;
    CHECK (missOf (wishesFor (song).front(), 164.814) == 0.0);
    CHECK (finding::Key::parse ("Bb", "--key").tonic == 10);
    CHECK (finding::Key::parse ("F#m", "--key").isMinor);
}

TEST_CASE ("A bass note and a distance become drum notes", "[song]")
{
    finding::Song song;
    song.bassNote = 73.416; // D2
    song.overBass = 7.0;
    CHECK (missOf (wishesFor (song).front(), 220.0) == 0.0); // A3
    CHECK (missOf (wishesFor (song).front(), 293.66) != 0.0);
}

TEST_CASE ("A tempo becomes the longest ring, a hand the softest stroke", "[song]")
{
    finding::Song song;
    song.tempo = 120.0;
    song.ringValue = finding::readNoteValue ("1/8", "--ring-value");
    song.hand = finding::Hand{};
    const auto wishes = wishesFor (song);
    REQUIRE (wishes.size() == 2);
    CHECK (wishes[0].ranges.front().high == Approx (0.25)); // an eighth at 120 quarters a minute
    CHECK (wishes[1].figure == Figure::softestStroke);
    CHECK (wishes[1].ranges.front().high == 0.3);
}

TEST_CASE ("Songs that cannot be are refused by name", "[song]")
{
    for (const auto* text : { "", "H", "D dorian", "D#b" })
        CHECK_THROWS_AS (finding::Key::parse (text, "--key"), modal::InputError);

    for (const auto* text : { "", "1/", "1/0", "8", "1/128", "x" })
        CHECK_THROWS_AS (finding::readNoteValue (text, "--ring-value"), modal::InputError);

    finding::Song song;
    song.tempo = 10.0;
    CHECK_THROWS_AS (wishesFor (song), modal::InputError);
    song.tempo.reset();
    song.hand = finding::Hand{ .softest = 4.0, .usual = 3.0 };
    CHECK_THROWS_AS (wishesFor (song), modal::InputError);
}
