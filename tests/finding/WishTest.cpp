#include "Finding/Wish.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Modal/InputError.h"

#include <limits>

using finding::Figure;

namespace
{

finding::Wish read (Figure figure, const std::string& text)
{
    return finding::readWish (figure, text, {}, "--wish");
}

} // namespace

TEST_CASE ("Wishes are read as people write them", "[wish]")
{
    // ISO 16: A4 = 440 Hz; equal temperament: D3 = 440 · 2^(-19/12) = 146.83 Hz, E3 = 164.81 Hz.
    const auto notes = read (Figure::drumNote, "D3:E3");
    CHECK (notes.ranges.front().low == Approx (146.832).epsilon (1.0e-5));
    CHECK (notes.ranges.front().high == Approx (164.814).epsilon (1.0e-5));
    CHECK (notes.text == "drum note D3 to E3");
    CHECK (missOf (notes, 150.0) == 0.0);
    CHECK (missOf (notes, 164.814 * std::exp2 (1.0 / 12.0)) == Approx (100.0).epsilon (1.0e-3));
    CHECK (missOf (notes, 146.832 * std::exp2 (-1.0 / 12.0)) == Approx (-100.0).epsilon (1.0e-3));

    const auto ring = read (Figure::ring, ":0.6s");
    CHECK (ring.ranges.front().high == 0.6);
    CHECK (ring.text == "ring at most 0.60 s");
    CHECK (read (Figure::ring, "200ms:").ranges.front().low == 0.2);
    CHECK (read (Figure::interval, "P4:P5").ranges.front().high == 7.0);
    CHECK (read (Figure::batterStrength, ":60").ranges.front().high == 0.6);
    CHECK (read (Figure::softestStroke, ":0.2m/s").ranges.front().high == 0.2);
    CHECK (read (Figure::resonantMove, "stays").text == "resonant head stays");
    CHECK (read (Figure::batterMove, "-4:4").text == "batter moves at most 4 semitones");

    // A beat at 120 a minute is half a second.
    const auto inBeats = [] (const std::string& text) { return finding::readWish (Figure::lasts, text, {}, "--lasts", 120.0); };
    CHECK (inBeats (":1beat").ranges.front().high == 0.5);
    CHECK (inBeats (":1beat").text == "drum note at the listener at most 0.50 s");
    CHECK (inBeats ("1/2 beat:3 beats").ranges.front().low == 0.25);
    CHECK (inBeats ("1/2 beat:3 beats").ranges.front().high == 1.5);
    CHECK (read (Figure::lasts, ":0.6s").ranges.front().high == 0.6);
    CHECK (read (Figure::wiresCarry, "15m:").text == "wires carry at least 15 m");

    const auto single = read (Figure::drumNote, "D3");
    CHECK (missOf (single, 146.832 * std::exp2 (9.0 / 1200.0)) == 0.0);
    CHECK (missOf (single, 146.832 * std::exp2 (20.0 / 1200.0)) == Approx (10.0).epsilon (1.0e-2));
}

TEST_CASE ("Wishes that cannot be read say what is allowed", "[wish]")
{
    for (const auto& [figure, text] : { std::pair{ Figure::drumNote, "loud" },
                                        { Figure::drumNote, "E3:D3" },
                                        { Figure::ring, "0.6s" },
                                        { Figure::ring, ":" },
                                        { Figure::ring, "" },
                                        { Figure::ring, ":6m/s" },
                                        { Figure::ring, ":1beat" },
                                        { Figure::lasts, ":1/xbeat" },
                                        { Figure::interval, "P4:wide" },
                                        { Figure::batterStrength, ":160" },
                                        { Figure::softestStroke, ":nan" },
                                        { Figure::drumNote, "1e999:" } })
    {
        CAPTURE (text);
        try
        {
            read (figure, text);
            FAIL ("was read");
        }
        catch (const modal::InputError& error)
        {
            CHECK (contains (error.what(), "--wish"));
            CHECK (contains (error.what(), "allowed"));
        }
    }
}

TEST_CASE ("Beats need a tempo", "[wish]")
{
    try
    {
        read (Figure::lasts, ":1beat");
        FAIL ("was read");
    }
    catch (const modal::InputError& error)
    {
        CHECK (contains (error.what(), "--wish"));
        CHECK (contains (error.what(), "tempo"));
    }
}

TEST_CASE ("A value that is not known misses every wish, and an endless one says so", "[wish]")
{
    CHECK (std::isinf (missOf (read (Figure::ring, ":0.6s"), std::numeric_limits<double>::quiet_NaN())));
    CHECK (finding::missText (Figure::softestStroke, std::numeric_limits<double>::infinity(), 0.2) ==
           "no stroke wakes the wires");
    CHECK (finding::missText (Figure::ring, 0.9, 0.6) == "0.30 s too long");
    CHECK (finding::missText (Figure::drumNote, 146.83, 164.81) == "200 cents too low");
}

TEST_CASE ("Of several ranges the nearest counts", "[wish]")
{
    const finding::Wish wish{ Figure::drumNote, { { 100.0, 110.0 }, { 200.0, 210.0 } }, "" };
    CHECK (finding::nearestAllowed (wish, 120.0) == 110.0);
    CHECK (finding::nearestAllowed (wish, 190.0) == 200.0);
    CHECK (missOf (wish, 205.0) == 0.0);
}
