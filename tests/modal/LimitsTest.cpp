#include "Drums.h"

#include "Modal/Tuning.h"
#include "reference/BesselZero.h"
#include "reference/ClosedCavityMembrane.h"
#include "tests/Catch.h"

TEST_CASE ("A head so heavy that air does not matter follows the in-vacuo formula", "[limits]")
{
    auto drum = drums::snare();
    drum.batter = { .plyThickness = 500.0e-6, .plies = 2, .coatingDensity = 0.2 };
    drum.bottom = modal::Bottom::closed;
    drum.depth = 0.5;
    drum.surround = GENERATE (modal::Surround::baffled, modal::Surround::freeStanding);
    const double density = drum.batter.baseDensity();

    // Thinning the air makes the same head relatively heavier; the error must go with it, and linearly.
    double previous = 0.0;
    for (const double thinning : { 1.0e-2, 1.0e-4, 1.0e-6 })
    {
        auto thin = drum;
        thin.air.density *= thinning;
        const auto modes = modal::solve (thin, { .batter = 9000.0 }, { .highestFrequency = 900.0 });
        double worst = 0.0;
        for (int m = 0; m <= 3; ++m)
            for (const auto& mode : drums::ofOrder (modes, m))
                if (! mode.isAirMode)
                {
                    const double ideal =
                        drums::vacuumFrequency (reference::zerosOfJ (m, mode.n).back(), drum.radius(), 9000.0, density);
                    worst = std::max (worst, std::abs (mode.frequency / ideal - 1.0));
                }
        CAPTURE (thinning, worst);
        CHECK (worst < 0.5 * thinning);
        if (previous > 0.0)
            CHECK (worst < 0.02 * previous);
        previous = worst;
    }
}

TEST_CASE ("In a very deep shell the heads are no longer coupled", "[limits]")
{
    // Below the cavity's first cross resonance, waves with m > 0 die out along the shell. (0,n) modes couple at any depth,
    // through plane waves.
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    drum.depth = 1.2;
    const modal::Tensions tensions{ .batter = 3000.0, .resonant = 1400.0 };
    const auto modes = modal::solve (drum, tensions);

    const auto found = drums::ofOrder (modes, 1);
    REQUIRE (found.size() >= 2);
    std::vector<double> alone{ modal::tapNote (drum, modal::HeadSide::batter, tensions.batter),
                               modal::tapNote (drum, modal::HeadSide::resonant, tensions.resonant) };
    std::sort (alone.begin(), alone.end());

    for (std::size_t i = 0; i < 2; ++i)
    {
        CAPTURE (i, found[i].frequency, alone[i]);
        CHECK (found[i].frequency == Approx (alone[i]).epsilon (2.0e-4));
        CHECK (std::min (found[i].shares.batter, found[i].shares.resonant) < 1.0e-3);
    }

    // The same heads on an ordinary shell share their (1,1) modes.
    drum.depth = 0.1;
    const auto shallow = drums::ofOrder (modal::solve (drum, tensions), 1);
    CHECK (std::min (shallow[0].shares.batter, shallow[0].shares.resonant) > 0.02);
}

TEST_CASE ("Air stiffness raises the opposed (0,1) mode of a shallow drum as theory predicts", "[limits]")
{
    // Equal heads over massless, springy air: together they do not feel it; opposed, each sees a closed cavity of half the depth.
    // The first opposed root runs from 2.405 to 5.136, where the head moves no volume (J₂(x) = 0): the air then dominates
    // altogether.
    auto drum = drums::snare();
    drum.resonant = drum.batter;
    drum.air = drums::springOnly();
    drum.surround = modal::Surround::baffled;
    const double tension = 2500.0;
    const double stiffness = drum.air.density * std::pow (drum.air.soundSpeed, 2);
    const double scale = modal::units::twoPi * drum.radius() * std::sqrt (drum.batter.baseDensity() / tension);

    double last = 0.0;
    for (const double depth : { 2.0, 0.5, 0.14, 0.05, 0.02 })
    {
        drum.depth = depth;
        const auto modes =
            modal::solve (drum, { .batter = tension, .resonant = tension }, { .highestFrequency = 1500.0, .extraFunctions = 30 });
        const double b = stiffness * std::pow (drum.radius(), 2) / (0.5 * depth * tension);
        const auto opposedRoots = reference::closedCavityRoots (b, 2);

        std::vector<double> together, opposed;
        for (const auto& mode : drums::ofOrder (modes, 0))
            (mode.headCorrelation > 0.0 ? together : opposed).push_back (mode.frequency * scale);

        CAPTURE (depth, b, opposed[0], opposedRoots[0]);
        CHECK (together[0] == Approx (2.404825557695773).epsilon (1.0e-6));
        CHECK (together[1] == Approx (5.520078110286311).epsilon (1.0e-6));
        CHECK (opposed[0] == Approx (opposedRoots[0]).epsilon (2.0e-5));
        CHECK (opposed[1] == Approx (opposedRoots[1]).epsilon (2.0e-5));
        CHECK (opposed[0] > last);
        last = opposed[0];
    }
    CHECK (last > 5.0);
    CHECK (last < 5.1356223);
}

TEST_CASE ("A weak air spring raises the square of the frequency in proportion to 1/depth", "[limits]")
{
    auto drum = drums::snare();
    drum.resonant = drum.batter;
    drum.air = drums::springOnly();
    const double tension = 12000.0;

    const auto addedSquare = [&] (double depth)
    {
        drum.depth = depth;
        const auto modes = drums::ofOrder (modal::solve (drum, { .batter = tension, .resonant = tension }), 0);
        return std::pow (modes[1].frequency, 2) - std::pow (modes[0].frequency, 2);
    };
    const double deep = addedSquare (2.0), halfAsDeep = addedSquare (1.0);

    // To first order Δ(ω²) = 2ρc²/(σL) · (∫φ dA)²/πa², so halving the depth doubles it, but for terms of the order of B/20.
    CHECK (halfAsDeep / deep == Approx (2.0).epsilon (0.02));
}
