#include "MapDrum.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Modal/InputError.h"
#include "Modal/Prediction.h"

#include <limits>
#include <random>

using finding::Figure;

namespace
{

constexpr double infinite = std::numeric_limits<double>::infinity();
const finding::Present present{ 220.0, 293.66 };

finding::Ground ground()
{
    return { mapped::tuner(), mapped::solver(), mapped::map(), nullptr, std::nullopt, present };
}

finding::Wish wish (Figure figure, double low, double high)
{
    return finding::wishFor (figure, { low, high }, {});
}

finding::Figures solvedAlone (double batter, double resonant)
{
    return finding::figuresOf (mapped::tuner(), mapped::solver(), batter, resonant, present);
}

/** Tunings 20 cents apart, each solved by itself within nine semitones of either head: what the search is held against. */
struct BruteForce
{
    std::vector<finding::Figures> figures;

    BruteForce()
    {
        for (const double batter : finding::notesBetween (area.batter, 20.0))
            for (const double resonant : finding::notesBetween (area.resonant, 20.0))
                figures.push_back (solvedAlone (batter, resonant));
    }

    /** Steps by which the nearest tuning misses a wish on a grid of 5 cents around the best of these. */
    double nearestOnFineGrid (const finding::Wish& wanted) const
    {
        const auto missed = [&] (const finding::Figures& one) { return std::abs (missOf (wanted, of (one, wanted.figure))); };
        const auto best = *std::min_element (figures.begin(), figures.end(),
                                             [&] (const auto& a, const auto& b) { return missed (a) < missed (b); });
        double nearest = missed (best);
        constexpr double reach = 20.0, step = 5.0; // cents

        for (double up = -reach; up <= reach; up += step)
            for (double over = -reach; over <= reach; over += step)
                if (const double batter = of (best, Figure::batterNote) * std::exp2 (up / 1200.0),
                    resonant = of (best, Figure::resonantNote) * std::exp2 (over / 1200.0);
                    area.contains (batter, resonant))
                    nearest = std::min (nearest, missed (solvedAlone (batter, resonant)));

        return nearest;
    }

    /** Steps by which the nearest tuning misses a wish. */
    double nearestTo (const finding::Wish& wanted) const
    {
        double nearest = infinite;
        for (const auto& one : figures)
            nearest = std::min (nearest, std::abs (missOf (wanted, of (one, wanted.figure))));
        return nearest;
    }

    bool someMeets (const std::vector<finding::Wish>& wishes) const
    {
        return std::any_of (figures.begin(), figures.end(), [&] (const auto& one) { return meetsAll (one, wishes); });
    }

    static constexpr finding::MapArea area{ { 180.0, 300.0 }, { 220.0, 360.0 } };
};

const BruteForce& bruteForce()
{
    static const BruteForce value;
    return value;
}

std::shared_ptr<const finding::TuningMap> bruteMap()
{
    static const std::atomic<bool> cancel{ false };
    static const auto map = finding::TuningMap::make (mapped::tuner(), mapped::solver(), BruteForce::area, 50.0, 0, cancel);
    return map;
}

} // namespace

TEST_CASE ("Tunings that meet all wishes are listed, and differ", "[find]")
{
    const auto result = find (ground(), { wish (Figure::drumNote, 160.0, 200.0), wish (Figure::ring, -infinite, 1.5),
                                          wish (Figure::interval, 2.0, 9.0) });
    CHECK (result.areAllMet);
    CHECK (result.conflicts.empty());
    REQUIRE (result.list.size() >= 3);
    CHECK (result.list.size() <= finding::mostFound);
    CHECK (result.list.front().kind == "least to turn");

    for (const auto& tuning : result.list)
    {
        CAPTURE (tuning.kind);
        CHECK (tuning.meetsAll());
        for (const auto& other : result.list)
            if (&other != &tuning)
                CHECK (std::max (std::abs (modal::centsBetween (tuning.batterNote, other.batterNote)),
                                 std::abs (modal::centsBetween (tuning.resonantNote, other.resonantNote))) >= 50.0);
    }
}

TEST_CASE ("The search stays within the part of the map it is given", "[find]")
{
    auto where = ground();
    where.within = finding::areaOf (mapped::tuner(), 0.15, 0.3);
    for (const auto& tuning : find (where, { wish (Figure::drumNote, 250.0, 300.0) }).list)
    {
        CHECK (of (tuning.figures, Figure::batterStrength) < 0.1501);
        CHECK (of (tuning.figures, Figure::resonantStrength) < 0.3001);
    }
}

TEST_CASE ("A head that stays is left where it is", "[find]")
{
    const auto result = find (ground(), { wish (Figure::resonantMove, -0.05, 0.05), wish (Figure::drumNote, 150.0, 165.0) });
    REQUIRE (result.areAllMet);
    for (const auto& tuning : result.list)
        CHECK (std::abs (modal::centsBetween (tuning.resonantNote, present.resonantNote)) <= 5.5);
}

namespace
{

/** By how many steps the tunings on the list for this wish alone miss it at least. */
double nearestListed (const finding::Wish& wanted)
{
    const finding::Ground where{ mapped::tuner(), mapped::solver(), *bruteMap(), nullptr, std::nullopt, present };
    double nearest = infinite;

    for (const auto& tuning : find (where, { wanted }).list)
        nearest = std::min (nearest, std::abs (tuning.misses.front()));

    return nearest;
}

/** No tuning of the area meets any of these: the ends of what it gives. */
const std::array outOfReach{ wish (Figure::drumNote, 100.0, 110.0),   wish (Figure::drumNote, 240.0, 250.0),
                             wish (Figure::ring, -infinite, 0.1),     wish (Figure::ring, 5.0, infinite),
                             wish (Figure::interval, 14.0, 15.0),     wish (Figure::batterMove, 8.0, 9.0),
                             wish (Figure::batterStrength, 0.0, 0.01) };

} // namespace

TEST_CASE ("For a wish out of reach the list comes within ten cents of the best on a grid of five cents", "[find]")
{
    for (const auto& wanted : { outOfReach[0], outOfReach[2] })
    {
        CAPTURE (wanted.text);
        CHECK (bruteForce().nearestOnFineGrid (wanted) > 10.0);
        CHECK (nearestListed (wanted) <= bruteForce().nearestOnFineGrid (wanted) + 10.0);
    }
}

TEST_CASE ("The same for every wish out of reach and for wishes that exclude each other, on the whole grid of five cents",
           "[.long]")
{
    /** Two wishes of which a tuning can meet either. */
    const std::vector<std::array<finding::Wish, 2>> pairs{
        { wish (Figure::drumNote, 150.0, 151.0), wish (Figure::ring, -infinite, 0.8) },
        { wish (Figure::drumNote, 180.0, 181.0), wish (Figure::ring, 1.0, infinite) },
        { wish (Figure::interval, 6.95, 7.05), wish (Figure::batterStrength, 0.12, 0.14) },
        { wish (Figure::batterMove, -0.05, 0.05), wish (Figure::drumNote, 190.0, 191.0) },
    };
    const finding::Ground where{ mapped::tuner(), mapped::solver(), *bruteMap(), nullptr, std::nullopt, present };
    constexpr double met = 0.5, tenCents = 10.0; // steps
    const auto missed = [] (const finding::Wish& wanted, const finding::Figures& figures)
    { return std::abs (missOf (wanted, of (figures, wanted.figure))); };

    std::vector<double> alone (outOfReach.size(), infinite);
    std::vector<std::array<double, 2>> besideOther (pairs.size(), { infinite, infinite });

    for (const double batter : finding::notesBetween (BruteForce::area.batter, 5.0))
        for (const double resonant : finding::notesBetween (BruteForce::area.resonant, 5.0))
        {
            const auto figures = solvedAlone (batter, resonant);

            for (std::size_t w = 0; w < alone.size(); ++w)
                alone[w] = std::min (alone[w], missed (outOfReach[w], figures));

            for (std::size_t p = 0; p < pairs.size(); ++p)
                for (std::size_t w = 0; w < 2; ++w)
                    if (missed (pairs[p][1 - w], figures) <= met)
                        besideOther[p][w] = std::min (besideOther[p][w], missed (pairs[p][w], figures));
        }

    for (std::size_t w = 0; w < alone.size(); ++w)
    {
        CAPTURE (outOfReach[w].text, alone[w], nearestListed (outOfReach[w]));
        CHECK (alone[w] > 0.0);
        CHECK (std::abs (nearestListed (outOfReach[w]) - alone[w]) <= tenCents);
        CHECK (bruteForce().nearestOnFineGrid (outOfReach[w]) == Approx (alone[w]).margin (1.0));
    }

    for (std::size_t p = 0; p < pairs.size(); ++p)
    {
        const auto list = find (where, { pairs[p][0], pairs[p][1] }).list;

        for (std::size_t w = 0; w < 2; ++w)
        {
            double listed = infinite;
            for (const auto& tuning : list)
                if (tuning.misses[1 - w] == 0.0)
                    listed = std::min (listed, std::abs (tuning.misses[w]));

            CAPTURE (pairs[p][w].text, pairs[p][1 - w].text, listed, besideOther[p][w]);
            CHECK (besideOther[p][w] > tenCents);
            CHECK (listed <= besideOther[p][w] + tenCents);
        }
    }
}

TEST_CASE ("Each wish alone, each pair: the list is within ten cents of brute force", "[find]")
{
    const std::vector<finding::Wish> wishes{
        wish (Figure::drumNote, 120.0, 130.0),    wish (Figure::ring, -infinite, 0.3),
        wish (Figure::ring, 2.0, infinite),       wish (Figure::interval, 10.0, 12.0),
        wish (Figure::batterMove, 1.0, 2.0),      wish (Figure::drumNote, 195.0, 200.0),
        wish (Figure::batterStrength, 0.0, 0.05), wish (Figure::resonantStrength, 0.0, 0.05)
    };
    const finding::Ground where{ mapped::tuner(), mapped::solver(), *bruteMap(), nullptr, std::nullopt, present };
    constexpr double tenCents = 10.0;

    const auto check = [&] (const std::vector<finding::Wish>& wanted)
    {
        const auto result = find (where, wanted);
        CHECK (result.areAllMet >= bruteForce().someMeets (wanted));

        for (std::size_t w = 0; w < wanted.size(); ++w)
        {
            double nearest = infinite;
            for (const auto& tuning : result.list)
                nearest = std::min (nearest, std::abs (tuning.misses[w]));
            CAPTURE (wanted[w].text, nearest, bruteForce().nearestTo (wanted[w]));
            CHECK (nearest <= bruteForce().nearestTo (wanted[w]) + tenCents);
        }
    };

    for (std::size_t i = 0; i < wishes.size(); ++i)
    {
        check ({ wishes[i] });
        for (std::size_t j = i + 1; j < wishes.size(); ++j)
            check ({ wishes[i], wishes[j] });
    }
}

TEST_CASE ("In a place the search takes how long the drum note lasts there, as each tuning solved by itself does", "[find]")
{
    place::Place club;
    club.times.fill (0.9);
    const place::NoteAtListener heard (club);
    auto where = ground();
    where.place = &heard;
    const auto ring = find (where, { wish (Figure::ring, 0.8, 0.9) }), lasts = find (where, { wish (Figure::lasts, 0.8, 0.9) });
    REQUIRE (ring.areAllMet);

    for (const auto& tuning : ring.list)
    {
        const double alone = of (tuning.figures, Figure::ring);
        modal::Tuning tuned;
        tuned.target = modal::ByTapNotes{ tuning.batterNote, tuning.resonantNote };
        const auto prediction = modal::predict (mapped::drum(), tuned);
        const auto at = place::atListener (club, prediction.drumNote, prediction.sustain, {});
        CHECK (of (tuning.figures, Figure::lasts) == Approx (at.noteLasts).epsilon (0.02));
        CHECK (of (tuning.figures, Figure::lasts) > alone);
    }

    // In a room of 0.9 s a note that takes longer to decay than the room lasts longer still.
    for (const auto& tuning : lasts.list)
        CHECK (of (tuning.figures, Figure::ring) < of (tuning.figures, Figure::lasts));

    CHECK_THROWS_AS (find (ground(), { wish (Figure::lasts, 0.8, 0.9) }), modal::InputError);
}

TEST_CASE ("Wishes that exclude each other are named with the price of each", "[find]")
{
    // Each two of these can be had together; all three ask for a resonant head an octave above 200 Hz and below 390 Hz.
    const std::vector<finding::Wish> wishes{ wish (Figure::interval, 11.9, 13.0), wish (Figure::batterNote, 200.0, 390.0),
                                             wish (Figure::resonantNote, 160.0, 390.0), wish (Figure::ring, -infinite, 30.0) };
    const auto result = find (ground(), wishes);
    CHECK_FALSE (result.areAllMet);
    REQUIRE (result.conflicts.size() == 1);
    CHECK (result.conflicts.front().wishes == std::vector<std::size_t>{ 0, 1, 2 });
    const auto sentences = explain (result, wishes, {});
    REQUIRE (sentences.size() == 1);
    CHECK (contains (sentences.front(), "with the others, interval is"));
    CHECK (contains (sentences.front(), "cents too narrow"));
    CHECK_FALSE (contains (sentences.front(), "ring"));

    const auto alone = find (ground(), { wish (Figure::drumNote, 1000.0, 1100.0) });
    REQUIRE (alone.conflicts.size() == 1);
    CHECK (contains (explain (alone, { wish (Figure::drumNote, 1000.0, 1100.0) }, {}).front(),
                     "No tuning of this drum has drum note"));
    REQUIRE_FALSE (alone.list.empty());
    CHECK (alone.list.front().misses.front() < 0.0);
}

TEST_CASE ("Wishes without what they count from are refused", "[find]")
{
    auto where = ground();
    where.present.reset();
    CHECK_THROWS_AS (find (where, { wish (Figure::batterMove, -1.0, 1.0) }), modal::InputError);
    CHECK_THROWS_AS (find (where, { wish (Figure::softestStroke, -infinite, 0.3) }), modal::InputError);
    CHECK_THROWS_AS (find (where, std::vector<finding::Wish> (25, wish (Figure::ring, 0.1, 1.0))), modal::InputError);
}

TEST_CASE ("A thousand random lists of wishes: none fails, and what is not met is explained", "[find]")
{
    std::mt19937 random (1000);
    std::uniform_real_distribution<double> share (0.0, 1.0);
    // A coarse map of a small area makes a search some thousand tunings long.
    const std::atomic<bool> cancel{ false };
    const finding::MapArea area{ { 195.0, 230.0 }, { 250.0, 300.0 } };
    const auto map = finding::TuningMap::make (mapped::tuner(), mapped::solver(), area, 100.0, 0, cancel);
    const finding::Ground where{ mapped::tuner(), mapped::solver(), *map, nullptr, std::nullopt, present };
    constexpr std::array<Figure, 9> wishable{ Figure::drumNote,     Figure::ring,           Figure::interval,
                                              Figure::batterNote,   Figure::resonantNote,   Figure::batterMove,
                                              Figure::resonantMove, Figure::batterStrength, Figure::resonantStrength };

    const auto randomWish = [&]
    {
        const auto& info = finding::infoOf (wishable[static_cast<std::size_t> (share (random) * wishable.size())]);
        // Half of the limits lie where the area's figures are, half anywhere that may be asked for.
        const auto here =
            map->at (area.batter.lowest * std::pow (area.batter.highest / area.batter.lowest, share (random)),
                     area.resonant.lowest * std::pow (area.resonant.highest / area.resonant.lowest, share (random)), present);
        const auto limit = [&]
        {
            return std::clamp (share (random) < 0.5 ? of (here, info.figure) * (0.9 + 0.2 * share (random))
                                                    : info.low + (info.high - info.low) * share (random),
                               info.low, info.high);
        };
        auto low = limit(), high = limit();
        if (low > high)
            std::swap (low, high);
        if (share (random) < 0.3)
            low = -infinite;
        else if (share (random) < 0.3)
            high = infinite;
        return wish (info.figure, low, high);
    };

    for (int trial = 0; trial < 1000; ++trial)
    {
        std::vector<finding::Wish> wishes;
        const int count = static_cast<int> (6.0 * share (random));
        for (int i = 0; i < count; ++i)
            wishes.push_back (randomWish());

        const auto result = find (where, wishes);
        const auto sentences = explain (result, wishes, {});
        CAPTURE (trial, count);
        REQUIRE (result.list.size() <= finding::mostFound);
        REQUIRE_FALSE (result.list.empty());
        REQUIRE (result.areAllMet == sentences.empty());
        for (const auto& sentence : sentences)
            REQUIRE (sentence.size() > 40);
        for (const auto& tuning : result.list)
            for (const double miss : tuning.misses)
                if (result.areAllMet)
                    REQUIRE (std::abs (miss) < 5.0); // cents, or 0.3 %: the map of this test is coarse
    }
}
