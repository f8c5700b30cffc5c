#include "TestDrum.h"

#include "Engine/ContactLaw.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

/** A surface that does not give, and a mass that strikes it. */
engine::DrumSetup sphereOnAnvil (double mass, double stiffness, double rate, double damping = 0.0)
{
    auto setup = testdrum::anvil (rate);
    setup.stick = modal::pointMass (mass, stiffness, 1.5, damping);
    return setup;
}

engine::Blow blowOf (double speed)
{
    engine::Blow blow;
    blow.speed = speed;
    return blow;
}

} // namespace

// K. L. Johnson, Contact Mechanics (1985), eqs 11.22 to 11.24 (numbers of the equations from memory): a sphere that strikes a
// half-space sinks in by δ = (15 m v² / 16 √R E*)^(2/5) and stays for 2.943 δ/v, the number being 4√π Γ(2/5) / (5 Γ(9/10)).
TEST_CASE ("a sphere on a rigid surface has Hertz's contact time, depth and force")
{
    const double radius = 0.005, mass = 0.004, modulus = 2.0e7, speed = 1.0;
    const double stiffness = 4.0 / 3.0 * modulus * std::sqrt (radius);
    const double depth = std::pow (15.0 * mass * speed * speed / (16.0 * std::sqrt (radius) * modulus), 0.4);
    const double number = 4.0 * std::sqrt (modal::units::pi) * std::tgamma (0.4) / (5.0 * std::tgamma (0.9));
    REQUIRE (number == Approx (2.943).margin (0.0005));

    // At the highest rate the contact lasts some two hundred samples. A force acts from one sample before the border to one
    // after, so that up to two samples more are counted.
    const double rate = 192000.0;
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (sphereOnAnvil (mass, stiffness, rate)));
    drum.strike (blowOf (speed));
    testdrum::run (drum, 2048);

    const auto& report = drum.lastBlow();
    CHECK (report.contactTime == Approx (number * depth / speed).margin (2.0 / rate));
    CHECK (report.peakForce == Approx (stiffness * std::pow (depth, 1.5)).epsilon (0.01));
    CHECK (report.reboundShare == Approx (1.0).margin (1.0e-6));
}

// Between bounces a mass under a constant force F flies for 2 m v / F: schoolbook mechanics.
TEST_CASE ("a pressed stick without loss bounces at equal intervals")
{
    const double rate = 96000.0, mass = 0.02, speed = 0.5, hand = 4.0;
    auto blow = blowOf (speed);
    blow.hand = hand;
    blow.holdTime = 1.0;
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (sphereOnAnvil (mass, 5.0e8, rate)));
    drum.strike (blow);

    std::vector<double> landings;
    bool touching = false;
    for (int i = 0; i < 24000; ++i)
    {
        testdrum::run (drum, 1);
        const bool now = testdrum::tipForce (drum) > 0.0;
        if (now && ! touching)
            landings.push_back (i / rate);
        touching = now;
    }
    // Flight, and the short contact: Hertz's time again.
    const double depth = std::pow (5.0 * mass * speed * speed / (4.0 * 5.0e8), 0.4);
    const double expected = 2.0 * mass * speed / hand + 2.943 * depth / speed;
    REQUIRE (landings.size() > 20);
    const double mean = (landings.back() - landings.front()) / static_cast<double> (landings.size() - 1);
    CHECK (mean == Approx (expected).epsilon (0.005));
}

TEST_CASE ("loss in the tip lowers the rebound, and the missing energy is counted as lost")
{
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (sphereOnAnvil (0.02, 8.0e5, 96000.0, 0.3)));
    drum.countEnergy (true);
    drum.strike (blowOf (2.0));
    testdrum::run (drum, 9600);

    const double rebound = drum.lastBlow().reboundShare;
    CHECK (rebound < 0.9);
    CHECK (rebound > 0.3);
    CHECK (drum.energyFlows().contactLoss == Approx (0.5 * 0.02 * 4.0 * (1.0 - rebound * rebound)).epsilon (1.0e-6));
}

// Under a point force the deflection of a membrane grows without limit as shorter waves are added (the logarithm in its Green's
// function). The part that the modes do not resolve is in the contact, so that the stick feels the same head for any number of
// modes.
TEST_CASE ("contact time does not depend on the highest frequency of the modes")
{
    std::vector<double> times, forces;
    for (const double highest : { 1500.0, 2000.0, 3000.0, 4000.0 })
    {
        auto setup = testdrum::snare (highest, 96000.0);
        setup.wires.on = false;
        engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
        drum.strike (engine::Stroke{});
        testdrum::run (drum, 9600);
        times.push_back (drum.lastBlow().contactTime);
        forces.push_back (drum.lastBlow().peakForce);
        WARN (highest << " Hz: " << 1000.0 * times.back() << " ms, at most " << forces.back() << " N");
    }
    for (std::size_t i = 0; i + 1 < times.size(); ++i)
    {
        CHECK (times[i] == Approx (times.back()).epsilon (0.03));
        CHECK (forces[i] == Approx (forces.back()).epsilon (0.05));
    }
}

// The equation is constructed from a chosen move: the mean force is the stored energy over the distance. A stick held against a
// head hardly moves, while without force it would move a thousand times its compression.
TEST_CASE ("a stiff contact that hardly moves is solved as accurately as one that closes")
{
    const double exponent = GENERATE (1.189, 1.5);
    const double stiffness = 1.064e8, mobility = 1.185e-4, compression = 3.265e-6;
    const double still = stiffness * std::pow (compression, exponent), loss = 1.82e5 * still;
    double farthest = 0.0, largestMiss = 0.0;

    for (int i = -2000; i <= 2000; ++i)
    {
        const double move = 1.0e-6 * i * compression;
        const double stored = engine::storedEnergy (stiffness, exponent, compression + move) -
                              engine::storedEnergy (stiffness, exponent, compression);
        const double wish = move + mobility * ((i == 0 ? still : stored / move) + loss * move);

        for (const double guess : { 0.0, 0.99 * still })
        {
            const auto solved = engine::solveContact (compression, wish, mobility, stiffness, exponent, loss, guess);
            farthest = std::max (farthest, std::abs (solved.move - move) / compression);
            largestMiss = std::max (largestMiss, std::abs (solved.move + mobility * solved.force - wish) / wish);
        }
    }

    INFO ("off by " << farthest << " of the compression, misses the equation by " << largestMiss);
    CHECK (farthest < 1.0e-7);
    CHECK (largestMiss < 1.0e-11);
}
