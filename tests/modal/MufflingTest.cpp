#include "LowestModes.h"
#include "tests/Catch.h"

#include "reference/CompositeMembrane.h"

#include <algorithm>
#include <cmath>
#include <limits>

using namespace modal;

namespace
{

MufflingItem ring()
{
    return { .shape = MufflingItem::Shape::ring, .size = 0.025, .mass = 0.008 };
}

DrumSpec muffled (const MufflingItem& item)
{
    auto drum = drums::snare();
    drum.muffling = { item };
    return drum;
}

/** Every mode is made of functions of its own order and parity alone, and partners are alike to the last bit. */
void requireOrdersApart (const DrumModes& drum)
{
    REQUIRE (drum.isUniform);

    for (int k = 0; k < drum.size(); ++k)
    {
        const auto& mode = drum.modes[static_cast<std::size_t> (k)];
        double others = 0.0;

        for (std::size_t b = 0; b < drum.basis.size(); ++b)
            if (drum.basis[b].m != mode.m || drum.basis[b].parity != mode.parity)
                others += std::abs (drum.batter (static_cast<Eigen::Index> (b), k)) +
                          std::abs (drum.resonant (static_cast<Eigen::Index> (b), k));

        CAPTURE (k, mode.m, mode.frequency);
        CHECK (others == 0.0);

        if (mode.m > 0)
            CHECK (std::count_if (drum.modes.begin(), drum.modes.end(),
                                  [&] (const Mode& other) {
                                      return other.m == mode.m && other.parity != mode.parity &&
                                             other.frequency == mode.frequency;
                                  }) == 1);
    }
}

} // namespace

TEST_CASE ("A ring of muffling agrees with the exact two-region membrane", "[muffling]")
{
    auto drum = muffled (ring());
    drum.bottom = Bottom::open;
    drum.air = Air::vacuum();
    const double base = drum.batter.baseDensity(), width = drum.muffling[0].size;
    const double area = units::pi * width * (2.0 * drum.radius() - width);
    const reference::CompositeMembrane exact{ drum.radius(), drum.radius() - width, base, base + drum.muffling[0].mass / area,
                                              3000.0 };
    // Modes of the bare head are what it is put together from, so that it converges with the band.
    const auto modes = solve (drum, { .batter = 3000.0 }, { .highestFrequency = 6000.0 });

    checkLowestModes (modes, exact, 3.0e-4);
}

TEST_CASE ("Axially symmetric muffling does not couple the orders", "[muffling]")
{
    auto middle = MufflingItem{};
    middle.distance = 0.0;

    for (const auto& item : { ring(), middle })
    {
        auto drum = muffled (item);
        requireOrdersApart (solve (drum, { 2000.0, 1900.0 }, { .highestFrequency = 1500.0 }));
        drum.muffling[0].head = HeadSide::resonant;
        requireOrdersApart (solve (drum, { 2000.0, 1900.0 }, { .highestFrequency = 1500.0 }));
    }

    // Lugs that are all off by the same are even; one that is not, or a patch aside, parts the partners.
    CHECK (solve (drums::snare(), { 2000.0, 1900.0, std::vector<double> (10, 0.1) }, {}).isUniform);
    auto lugs = std::vector<double> (10, 0.0);
    lugs[3] = 0.05;
    CHECK_FALSE (solve (muffled (ring()), { 2000.0, 1900.0, lugs }, {}).isUniform);
    CHECK_FALSE (solve (muffled (MufflingItem{}), { 2000.0, 1900.0 }, {}).isUniform);
}

TEST_CASE ("A patch moved to the centre gives the same result as a patch at the centre", "[muffling]")
{
    auto item = MufflingItem{};
    item.distance = 1.0e-7;
    const auto beside = solve (muffled (item), { 2000.0, 1900.0 }, { .highestFrequency = 1000.0 });
    item.distance = 0.0;
    const auto middle = solve (muffled (item), { 2000.0, 1900.0 }, { .highestFrequency = 1000.0 });
    REQUIRE (beside.size() == middle.size());

    for (std::size_t k = 0; k < middle.modes.size(); ++k)
    {
        CHECK (middle.modes[k].frequency == Approx (beside.modes[k].frequency).epsilon (1.0e-8));
        CHECK (middle.modes[k].decay.muffling == Approx (beside.modes[k].decay.muffling).epsilon (1.0e-5).margin (1.0e-9));
    }
}

TEST_CASE ("A gel of 3 g on the batter halves the ring of the modes that move it (common practice, no source)", "[muffling]")
{
    const auto t60Of = [] (const DrumModes& drum, int order)
    {
        // Of the partners the one that the patch lies on is the more muffled.
        double shortest = std::numeric_limits<double>::infinity();
        for (int k = 0; k < drum.size(); ++k)
            if (const auto& mode = drum.modes[static_cast<std::size_t> (k)];
                mode.m == order && mode.n == 1 && mode.shares.batter > mode.shares.resonant)
                shortest = std::min (shortest, mode.decay.t60());
        return shortest;
    };
    SolveOptions options;
    options.highestFrequency = 400.0;
    const auto spec = drums::snare();
    const Tensions tensions{ .batter = 2000.0, .resonant = 2000.0 };
    const auto bare = solve (spec, tensions, options), gel = solve (muffled ({}), tensions, options);

    for (const int order : { 1, 2 })
    {
        CAPTURE (order);
        CHECK (t60Of (gel, order) > 0.3 * t60Of (bare, order));
        CHECK (t60Of (gel, order) < 0.65 * t60Of (bare, order));
    }
}

TEST_CASE ("A mode that a patch mixes says so in its name", "[muffling]")
{
    // The share of a mode's film energy that is in functions of its own order; both films are of one density.
    const auto ownOrder = [] (const DrumModes& drum, int k, const DrumSpec& spec)
    {
        double own = 0.0, all = 0.0;
        for (std::size_t b = 0; b < drum.basis.size(); ++b)
        {
            const auto row = static_cast<Eigen::Index> (b);
            const double energy = spec.batter.plyThickness * std::pow (drum.batter (row, k), 2) +
                                  spec.resonant.plyThickness * std::pow (drum.resonant (row, k), 2);
            all += energy;
            own += drum.basis[b].m == drum.modes[static_cast<std::size_t> (k)].m ? energy : 0.0;
        }
        return own / all;
    };

    auto even = drums::snare();
    for (const auto& mode : solve (even, { 2000.0, 2000.0 }, { .highestFrequency = 800.0 }).modes)
    {
        CHECK (mode.purity == 1.0);
        CHECK (nameOf (mode).ends_with (")"));
    }

    const auto drum = muffled ({ .size = 0.05, .distance = 0.1, .mass = 0.012 });
    const auto modes = solve (drum, { 2000.0, 2000.0 }, { .highestFrequency = 800.0 });
    int mixed = 0;

    for (int k = 0; k < modes.size(); ++k)
    {
        const auto& mode = modes.modes[static_cast<std::size_t> (k)];
        CAPTURE (nameOf (mode), mode.frequency, mode.purity);
        // What moves as (m, n) is of order m; the rest may be too. The mode's energy counts the air as well, the films' does not.
        CHECK (ownOrder (modes, k, drum) > mode.purity - 0.25);
        CHECK (nameOf (mode).ends_with ("mixed") == (mode.purity < 2.0 / 3.0));
        mixed += mode.purity < 2.0 / 3.0 ? 1 : 0;
    }

    CHECK (mixed > 0);
    CHECK (mixed < modes.size());
}
