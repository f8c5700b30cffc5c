#include "Drums.h"
#include "tests/Catch.h"

#include "Modal/InputError.h"
#include "Modal/heads/HeadMatrices.h"
#include "Modal/heads/TensionField.h"
#include "Modal/mathematics/Bessel.h"
#include "Modal/modes/Perturbation.h"
#include "reference/AnisotropicMembrane.h"

#include <algorithm>
#include <cmath>

using namespace modal;

namespace
{

/** A lone head in vacuo. */
DrumSpec bareHead()
{
    auto drum = drums::snare();
    drum.bottom = Bottom::closed;
    drum.air = Air::vacuum();
    return drum;
}

/** Frequencies of both partners of the lowest mode of order m, the lower first. */
std::pair<double, double> partners (const DrumModes& drum, int m)
{
    std::vector<double> found;

    for (const auto& mode : drum.modes)
        if (mode.m == m && ! mode.isAirMode)
            found.push_back (mode.frequency);

    REQUIRE (found.size() >= 2);
    return { found[0], found[1] };
}

/** Tension deviations of lugs that pull as cos pθ. */
std::vector<double> lugsAs (int p, double amplitude, int lugs)
{
    std::vector<double> values;

    for (int k = 0; k < lugs; ++k)
        values.push_back (amplitude * std::cos (units::twoPi * p * k / lugs));

    return values;
}

} // namespace

TEST_CASE ("The anisotropic reference membrane gives the uniform membrane for equal tensions", "[uneven]")
{
    // Abramowitz & Stegun table 9.5
    const auto even = reference::anisotropicMembrane (1.0, 1.0, 14, 6);
    CHECK (even[0] == Approx (2.4048255577).epsilon (1e-9));
    CHECK (even[1] == Approx (3.8317059702).epsilon (1e-9));
    CHECK (even[5] == Approx (5.5200781103).epsilon (1e-8));
}

TEST_CASE ("A head with more tension along x than along y has the modes of the anisotropic membrane", "[uneven]")
{
    const auto drum = bareHead();
    const double tension = 3000.0, unevenness = GENERATE (0.05, 0.2);
    const auto expected = reference::anisotropicMembrane (tension * (1.0 + unevenness), tension * (1.0 - unevenness), 14, 10);

    const auto even = solve (drum, { tension, 0.0 }, { .highestFrequency = 2000.0 });
    Perturbation added;
    const TensionHarmonic harmonic{ .p = 2, .inner = { tension * unevenness, 0.0 }, .outer = {} };
    added.batterStiffness = unevenStiffness (even.basis, { harmonic }, even.radius);
    const auto drawn = perturbed (even, added);

    // The solver's basis ends at 2 kHz: 2e-4 is what that costs at 20 % of unevenness.
    for (std::size_t i = 0; i < expected.size(); ++i)
    {
        const double frequency = expected[i] / std::sqrt (drum.batter.baseDensity()) / drum.radius() / units::twoPi;
        INFO ("mode " << i << " at " << frequency << " Hz, unevenness " << unevenness);
        CHECK (drawn.modes[i].frequency == Approx (frequency).epsilon (2e-4));
    }
}

TEST_CASE ("Rotating the unevenness splits pairs by the same amount", "[uneven]")
{
    const auto drum = bareHead();
    const auto even = solve (drum, { 3000.0, 0.0 }, { .highestFrequency = 1500.0 });
    const auto splitBy = [&] (const TensionHarmonic& harmonic)
    {
        Perturbation added;
        added.batterStiffness = unevenStiffness (even.basis, { harmonic }, even.radius);
        return perturbed (even, added);
    };

    for (const int p : { 2, 3, 4 })
    {
        const auto along = splitBy ({ .p = p, .inner = { 300.0, 0.0 }, .outer = { 40.0, 0.0 } });
        const auto turned = splitBy ({ .p = p, .inner = { 0.0, 300.0 }, .outer = { 0.0, 40.0 } });

        for (int i = 0; i < 12; ++i)
            CHECK (along.modes[static_cast<std::size_t> (i)].frequency ==
                   Approx (turned.modes[static_cast<std::size_t> (i)].frequency).epsilon (1e-9));
    }
}

TEST_CASE ("The tension at the rim equals the tension set at each lug", "[uneven]")
{
    // The radial tension that the harmonics give at the rim, from their definition.
    const std::vector<double> lugs{ 120.0, -40.0, 15.0, -80.0, 60.0, -90.0, 35.0, -20.0 };
    const auto harmonics = harmonicsOf (lugs);

    for (std::size_t k = 0; k < lugs.size(); ++k)
    {
        const double angle = units::twoPi * static_cast<double> (k) / static_cast<double> (lugs.size());
        double tension = 0.0;

        for (const auto& h : harmonics)
        {
            const double outer = (2.0 - h.p) * (1.0 + h.p);
            tension += ((h.p > 1 ? h.inner.cosine : 0.0) + outer * h.outer.cosine) * std::cos (h.p * angle) +
                       ((h.p > 1 ? h.inner.sine : 0.0) + outer * h.outer.sine) * std::sin (h.p * angle);
        }

        CHECK (tension == Approx (lugs[k]).margin (1e-9));
    }
}

TEST_CASE ("Even tensioning follows the plane-stress solution for a disc", "[uneven]")
{
    // Timoshenko & Goodier, Theory of Elasticity: a disc under equal pull all round, σ = E ε / (1 − ν).
    const HeadConstruction head{ .plyThickness = 250.0e-6 };
    const double expected = Film::youngsModulus * 250.0e-6 / (1.0 - Film::poissonsRatio) * (0.5e-3 / 0.1778);
    CHECK (rimTension (0, 0.5e-3, head, 0.1778) == Approx (expected));
}

TEST_CASE ("Unevenness with two maxima round the rim splits (1,1) and hardly moves (0,1)", "[uneven]")
{
    // Worland, JASA 127 (2010) 525: cos 2θ unevenness splits the (1,1) pair first and most; (0,1) moves only in second order.
    auto drum = drums::snare();
    drum.lugs = 8;
    const Tensions even{ 4000.0, 3500.0 };
    auto uneven = even;
    uneven.batterLugs = lugsAs (2, 0.05, 8);

    const auto before = solve (drum, even), after = solve (drum, uneven);
    const auto [low, high] = partners (after, 1);
    const double middle = partners (before, 1).first;

    CHECK ((high - low) / middle > 0.01);
    CHECK (std::abs (0.5 * (high + low) / middle - 1.0) < 0.001);
    CHECK (std::abs (drumNote (after) / drumNote (before) - 1.0) < 0.001);

    // First order in the amplitude: half of it splits half as far.
    uneven.batterLugs = lugsAs (2, 0.025, 8);
    const auto [lowHalf, highHalf] = partners (solve (drum, uneven), 1);
    CHECK ((high - low) / (highHalf - lowHalf) == Approx (2.0).epsilon (0.01));
}

TEST_CASE ("Only the harmonic 2m splits the pair of order m in first order", "[uneven]")
{
    // Selection rule of first-order perturbation: harmonic p splits the pair of order m where 2m = p; so p = 4 splits (2,1), and
    // p = 3 none.
    auto drum = drums::snare();
    drum.lugs = 8;
    Tensions tensions{ 4000.0, 3500.0 };
    const auto splitOf = [&] (int p, int m)
    {
        tensions.batterLugs = lugsAs (p, 0.05, 8);
        const auto [low, high] = partners (solve (drum, tensions), m);
        return (high - low) / low;
    };

    CHECK (splitOf (4, 2) > 20.0 * splitOf (4, 1));
    CHECK (splitOf (3, 1) < 1.0e-3);
    CHECK (splitOf (3, 2) < 2.0e-3);
}

TEST_CASE ("Whichever of five to twelve lugs is loose, the frequencies are the same", "[uneven]")
{
    auto drum = drums::snare();
    drum.lugs = GENERATE (5, 6, 8, 10, 12);
    Tensions tensions{ 4000.0, 3500.0 };

    std::pair<double, double> first{};

    for (int loose = 0; loose < drum.lugs; ++loose)
    {
        tensions.batterLugs.assign (static_cast<std::size_t> (drum.lugs), 0.0);
        tensions.batterLugs[static_cast<std::size_t> (loose)] = -0.3;
        const auto pair = partners (solve (drum, tensions, { .highestFrequency = 1200.0 }), 1);

        if (loose == 0)
            first = pair;

        // Which lug it is turns the modes and changes no frequency.
        CHECK (pair.first == Approx (first.first).epsilon (1e-6));
        CHECK (pair.second == Approx (first.second).epsilon (1e-6));
        CHECK (pair.second - pair.first > 1.0);
    }
}

TEST_CASE ("Lug tensions that would leave the head slack between lugs are refused", "[uneven]")
{
    auto drum = drums::snare();
    drum.lugs = 8;
    Tensions tensions{ 2000.0, 1900.0 };

    for (int lug = 0; lug < drum.lugs; ++lug)
        tensions.batterLugs.push_back (lug % 2 == 0 ? -0.9 : 2.0);

    CHECK_THROWS_AS (solve (drum, tensions, { .highestFrequency = 1500.0 }), InputError);

    // A tenth of that is a badly tuned drum, and a drum.
    for (auto& lug : tensions.batterLugs)
        lug *= 0.1;

    CHECK_NOTHROW (solve (drum, tensions, { .highestFrequency = 1500.0 }));
}
