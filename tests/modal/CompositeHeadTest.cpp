#include "LowestModes.h"

#include "reference/CompositeMembrane.h"
#include "tests/Catch.h"

namespace
{
modal::DrumSpec dotted (double dotDiameter, double dotThickness)
{
    auto drum = drums::snare();
    drum.batter.dotDiameter = dotDiameter;
    drum.batter.dotThickness = dotThickness;
    drum.bottom = modal::Bottom::open;
    drum.air = modal::Air::vacuum();
    return drum;
}

/** Largest relative error over the first four modes of orders 0 to 3. */
double worstError (const modal::DrumSpec& drum, int extraFunctions)
{
    const double tension = 3000.0;
    const auto& head = drum.batter;
    const double extra = head.dotThickness * modal::Film::density;
    const reference::CompositeMembrane exact{ drum.radius(), 0.5 * head.dotDiameter, head.baseDensity() + extra,
                                              head.baseDensity(), tension };
    const auto modes =
        modal::solve (drum, { .batter = tension }, { .highestFrequency = 1800.0, .extraFunctions = extraFunctions });

    double worst = 0.0;
    for (int m = 0; m <= 3; ++m)
    {
        const auto expected = exact.frequencies (m, 4);
        const auto found = drums::ofOrder (modes, m);
        REQUIRE (found.size() >= 4);
        for (std::size_t i = 0; i < 4; ++i)
            worst = std::max (worst, std::abs (found[i].frequency / expected[i] - 1.0));
    }
    return worst;
}
} // namespace

TEST_CASE ("The exact two-region membrane with equal densities is a uniform membrane", "[composite]")
{
    const reference::CompositeMembrane plain{ 0.2, 0.07, 0.35, 0.35, 3000.0 };
    const double zeros[3] = { 3.831705970, 7.015586670, 10.173468135 }; // j_11, j_12, j_13: Abramowitz & Stegun table 9.5
    const auto frequencies = plain.frequencies (1, 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK (frequencies[i] == Approx (drums::vacuumFrequency (zeros[i], 0.2, 3000.0, 0.35)).epsilon (1.0e-9));
}

TEST_CASE ("A head with a centre dot agrees with the exact two-region membrane", "[composite]")
{
    const double diameter = GENERATE (0.05, 0.10, 0.20, 0.30);
    const double thickness = GENERATE (125.0e-6, 500.0e-6);
    const auto drum = dotted (diameter, thickness);

    // The density steps and with it the shape's curvature, so that an error of a frequency falls about as the cube of the count
    // of functions; it grows with the dot's weight: at 500 µm the dot is three times as heavy as the head around it.
    const double weight = thickness / 125.0e-6;
    const double usual = worstError (drum, 5), finer = worstError (drum, 20), finest = worstError (drum, 40);
    CAPTURE (diameter, thickness, usual, finer, finest);
    CHECK (usual < 8.0e-4 * weight);
    CHECK (finer < 4.0e-5 * weight);
    CHECK (finest < 8.0e-6 * weight);
    CHECK (finest < 0.3 * finer);
}

TEST_CASE ("A head with a ring along the rim agrees with the exact two-region membrane", "[composite]")
{
    // Seen from the middle, the plain part is a lighter disc inside a heavier annulus.
    auto drum = drums::snare();
    drum.batter.ringWidth = 0.03;
    drum.batter.ringThickness = 250.0e-6;
    drum.bottom = modal::Bottom::open;
    drum.air = modal::Air::vacuum();

    const double base = drum.batter.baseDensity();
    const double ringed = base + drum.batter.ringThickness * modal::Film::density;
    const reference::CompositeMembrane exact{ drum.radius(), drum.radius() - drum.batter.ringWidth, base, ringed, 3000.0 };
    const auto modes = modal::solve (drum, { .batter = 3000.0 }, { .highestFrequency = 1500.0, .extraFunctions = 30 });

    checkLowestModes (modes, exact, 1.0e-5);
}
