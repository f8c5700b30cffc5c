#include "Drums.h"

#include "Modal/Tuning.h"
#include "tests/Catch.h"

#include <random>

namespace
{
struct Case
{
    modal::DrumSpec drum;
    modal::Tensions tensions;
};

/** A drum that someone could build, from a seed. */
Case randomCase (unsigned seed)
{
    std::mt19937 generator (seed);
    const auto uniform = [&] (double low, double high)
    { return low + (high - low) * static_cast<double> (generator()) / static_cast<double> (std::mt19937::max()); };
    const auto choice = [&] (unsigned count) { return static_cast<int> (generator() % count); };

    Case result;
    auto& drum = result.drum;
    drum.diameter = uniform (0.2, 0.45);
    drum.depth = uniform (0.05, 0.4);
    drum.batter.plyThickness = uniform (125.0e-6, 350.0e-6);
    drum.batter.plies = 1 + choice (2);
    drum.batter.coatingDensity = uniform (0.0, 0.1);
    if (choice (2) == 1)
    {
        drum.batter.dotDiameter = uniform (0.05, 0.15);
        drum.batter.dotThickness = uniform (50.0e-6, 250.0e-6);
    }
    if (choice (3) == 0)
    {
        drum.batter.ringWidth = uniform (0.005, 0.03);
        drum.batter.ringThickness = uniform (50.0e-6, 250.0e-6);
    }
    drum.resonant.plyThickness = uniform (50.0e-6, 250.0e-6);
    drum.bottom = std::array{ modal::Bottom::head, modal::Bottom::head, modal::Bottom::closed,
                              modal::Bottom::open }[static_cast<std::size_t> (choice (4))];
    drum.surround = choice (2) == 0 ? modal::Surround::freeStanding : modal::Surround::baffled;
    drum.vent.diameter = choice (2) == 0 ? 0.0 : uniform (0.005, 0.02);
    drum.air = modal::Air::from ({ .temperature = uniform (263.0, 313.0), .relativeHumidity = uniform (0.0, 1.0) });
    result.tensions.batter = uniform (0.02, 0.4) * modal::yieldTension (drum.batter);
    result.tensions.resonant = uniform (0.05, 0.5) * modal::yieldTension (drum.resonant);
    return result;
}

constexpr unsigned seeds = 60;
const modal::SolveOptions options{ .highestFrequency = 1200.0 };
} // namespace

TEST_CASE ("Every mode of a random drum has finite, plausible values", "[random]")
{
    for (unsigned seed = 1; seed <= seeds; ++seed)
    {
        const auto [drum, tensions] = randomCase (seed);
        const auto modes = modal::solve (drum, tensions, options);
        CAPTURE (seed, modes.size());
        REQUIRE (modes.size() > 0);
        REQUIRE (modes.batter.cols() == modes.size());
        REQUIRE (modes.batter.rows() == static_cast<Eigen::Index> (modes.basis.size()));
        CHECK (modes.batter.allFinite());
        CHECK (modes.resonant.allFinite());

        double previous = 0.0;
        for (const auto& mode : modes.modes)
        {
            CAPTURE (mode.m, mode.n, mode.frequency);
            CHECK (mode.frequency >= previous);
            CHECK (mode.frequency <= options.highestFrequency);
            previous = mode.frequency;

            const auto& shares = mode.shares;
            CHECK (shares.batter + shares.resonant + shares.air == Approx (1.0).epsilon (1.0e-9));
            CHECK (std::min ({ shares.batter, shares.resonant, shares.air }) >= -1.0e-12);
            CHECK (std::abs (mode.headCorrelation) <= 1.0 + 1.0e-12);

            const auto& decay = mode.decay;
            CHECK (std::min ({ decay.radiation, decay.film, decay.bending, decay.ply, decay.edge, decay.air, decay.muffling }) >= 0.0);
            CHECK (decay.total() > 0.0);
            CHECK (decay.t60() == Approx (std::log (1000.0) / decay.total()).epsilon (1.0e-9));
            if (! drum.hasResonantHead())
                CHECK (shares.resonant == 0.0);
        }
    }
}

TEST_CASE ("Both modes of a degenerate pair are listed and differ only in angle", "[random]")
{
    for (unsigned seed = 1; seed <= 10; ++seed)
    {
        const auto [drum, tensions] = randomCase (seed);
        const auto solved = modal::solve (drum, tensions, options);
        int cosines = 0, sines = 0;
        for (int i = 0; i < solved.size(); ++i)
        {
            const auto& mode = solved.modes[static_cast<std::size_t> (i)];
            if (mode.m == 0)
            {
                CHECK (mode.parity == modal::Parity::cosine);
                continue;
            }
            (mode.parity == modal::Parity::cosine ? cosines : sines)++;
        }
        CAPTURE (seed);
        CHECK (cosines == sines);
        for (int m = 1; m <= 3; ++m)
        {
            std::vector<double> cosine, sine;
            for (const auto& mode : solved.modes)
                if (mode.m == m)
                    (mode.parity == modal::Parity::cosine ? cosine : sine).push_back (mode.frequency);
            CHECK (cosine == sine);
        }
    }
}

TEST_CASE ("Head shares are each head's mass weighted by the mode shape", "[random]")
{
    // Unit modal mass: a plain film's share is σ Σ coefficient², whatever the air does.
    for (unsigned seed = 1; seed <= 20; ++seed)
    {
        auto [drum, tensions] = randomCase (seed);
        drum.batter.dotDiameter = drum.batter.dotThickness = drum.batter.ringWidth = drum.batter.ringThickness = 0.0;
        const auto modes = modal::solve (drum, tensions, options);
        for (int i = 0; i < modes.size(); ++i)
        {
            const auto& mode = modes.modes[static_cast<std::size_t> (i)];
            CAPTURE (seed, i, mode.m, mode.frequency);
            CHECK (mode.shares.batter ==
                   Approx (drum.batter.baseDensity() * modes.batter.col (i).squaredNorm()).epsilon (0.02).margin (1.0e-9));
            if (drum.hasResonantHead())
                CHECK (
                    mode.shares.resonant ==
                    Approx (drum.resonant.baseDensity() * modes.resonant.col (i).squaredNorm()).epsilon (0.02).margin (1.0e-9));
        }
    }
}

TEST_CASE ("Without air the modes are orthonormal in the heads' mass", "[random]")
{
    for (unsigned seed = 1; seed <= 20; ++seed)
    {
        auto [drum, tensions] = randomCase (seed);
        drum.air = modal::Air::vacuum();
        drum.batter.dotDiameter = drum.batter.dotThickness = drum.batter.ringWidth = drum.batter.ringThickness = 0.0;
        const auto modes = modal::solve (drum, tensions, options);
        Eigen::MatrixXd product = drum.batter.baseDensity() * modes.batter.transpose() * modes.batter;
        if (drum.hasResonantHead())
            product += drum.resonant.baseDensity() * modes.resonant.transpose() * modes.resonant;
        CAPTURE (seed);
        CHECK ((product - Eigen::MatrixXd::Identity (modes.size(), modes.size())).cwiseAbs().maxCoeff() < 1.0e-9);
    }
}

TEST_CASE ("Tightening a head lowers no mode", "[random]")
{
    for (unsigned seed = 1; seed <= 30; ++seed)
    {
        const auto [drum, tensions] = randomCase (seed);
        const auto before = modal::solve (drum, tensions, options);
        for (const bool batter : { true, false })
        {
            if (! batter && ! drum.hasResonantHead())
                continue;
            auto tighter = tensions;
            (batter ? tighter.batter : tighter.resonant) *= 1.06;
            const auto after = modal::solve (drum, tighter, options);
            for (int m = 0; m <= 4; ++m)
            {
                const auto a = drums::ofOrder (before, m), b = drums::ofOrder (after, m);
                CAPTURE (seed, batter, m);
                // Exact for a drum that does not radiate. The second order of radiation damping lowers a mode, and a tighter head
                // may radiate more: strongly radiating modes may give back up to two hundredths.
                const auto radiates = [] (const modal::Mode& mode)
                { return mode.decay.radiation > 0.003 * mode.angularFrequency(); };
                const double wellInside = 0.9 * options.highestFrequency;
                for (std::size_t i = 0; i < a.size() && a[i].frequency < wellInside && i < b.size(); ++i)
                {
                    const double allowance = radiates (a[i]) || radiates (b[i]) ? 2.0e-2 : 1.0e-4;
                    CHECK (b[i].frequency >= a[i].frequency * (1.0 - allowance));
                }
            }
        }
    }
}

TEST_CASE ("The same drum gives bit-identical results", "[random]")
{
    for (unsigned seed = 1; seed <= 5; ++seed)
    {
        const auto [drum, tensions] = randomCase (seed);
        const auto one = modal::solve (drum, tensions, options), other = modal::solve (drum, tensions, options);
        REQUIRE (one.size() == other.size());
        CHECK (one.batter == other.batter);
        CHECK (one.resonant == other.resonant);
        for (std::size_t i = 0; i < one.modes.size(); ++i)
        {
            CHECK (one.modes[i].frequency == other.modes[i].frequency);
            CHECK (one.modes[i].decay.total() == other.modes[i].decay.total());
        }
    }
}
