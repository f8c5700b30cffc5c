#include "Drums.h"

#include "reference/ExteriorLaplace.h"
#include "reference/FullSolve.h"

#include "reference/BesselZero.h"
#include "tests/Catch.h"

#include <boost/math/special_functions/bessel.hpp>

namespace
{
const modal::Tensions tensions{ .batter = 3200.0, .resonant = 1800.0 };
constexpr double band = 1000.0; // Hz

reference::FullDrum described (const modal::DrumSpec& drum)
{
    return { .radius = drum.radius(),
             .depth = drum.depth,
             .batterDensity = drum.batter.baseDensity(),
             .batterTension = tensions.batter,
             .resonantDensity = drum.resonant.baseDensity(),
             .resonantTension = tensions.resonant,
             .airDensity = drum.air.density,
             .soundSpeed = drum.air.soundSpeed,
             .hasResonantHead = drum.hasResonantHead(),
             .stillExterior = {} };
}

struct Agreement
{
    double hertz = 0.0;    ///< largest difference of a frequency
    double relative = 0.0; ///< the same relative to the frequency
    int modes = 0;         ///< how many were compared
};

Agreement compare (const modal::DrumModes& solved, int m, const std::vector<reference::FullMode>& full)
{
    const auto modes = drums::ofOrder (solved, m);
    Agreement result;
    for (std::size_t i = 0; i < full.size(); ++i)
    {
        REQUIRE (i < modes.size());
        const double difference = std::abs (modes[i].frequency - full[i].frequency);
        UNSCOPED_INFO ("m " << m << ": " << modes[i].frequency << " Hz, full solution " << full[i].frequency
                            << " Hz; radiation decay " << modes[i].decay.radiation << " 1/s, full solution "
                            << full[i].radiationDecay << " 1/s");
        result.hertz = std::max (result.hertz, difference);
        result.relative = std::max (result.relative, difference / full[i].frequency);
        ++result.modes;
    }
    return result;
}
} // namespace

TEST_CASE ("One symmetric eigenproblem an order agrees with a hunt for the roots of the full problem", "[full]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    drum.bottom = GENERATE (modal::Bottom::head, modal::Bottom::closed);
    drum.depth = GENERATE (0.08, 0.127, 0.3);
    const auto solved = modal::solve (drum, tensions, { .highestFrequency = 1500.0, .extraFunctions = 8 });

    int compared = 0;
    double worstBelowHalfBand = 0.0, worst = 0.0;
    for (int m = 0; m <= 4; ++m)
    {
        const auto agreement = compare (solved, m, reference::solveFully (described (drum), m, band));
        const auto low = compare (solved, m, reference::solveFully (described (drum), m, 0.5 * band));
        compared += agreement.modes;
        worst = std::max (worst, agreement.relative);
        worstBelowHalfBand = std::max (worstBelowHalfBand, low.relative);
    }
    CAPTURE (drum.depth, compared, worst, worstBelowHalfBand);
    CHECK (compared >= 8);
    CHECK (worstBelowHalfBand < 0.003);
    CHECK (worst < 0.01);
}

TEST_CASE ("Radiation losses agree with the full problem's resistance", "[full]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    const auto solved = modal::solve (drum, tensions, { .highestFrequency = 1500.0, .extraFunctions = 8 });

    for (int m = 0; m <= 3; ++m)
    {
        const auto full = reference::solveFully (described (drum), m, 800.0);
        const auto modes = drums::ofOrder (solved, m);
        for (std::size_t i = 0; i < full.size(); ++i)
        {
            CAPTURE (m, i, modes[i].frequency, full[i].frequency);
            CHECK (modes[i].decay.radiation == Approx (full[i].radiationDecay).epsilon (0.05));
        }
    }
}

TEST_CASE ("A free-standing drum agrees with the full problem over a finite-volume exterior", "[full]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::freeStanding;
    const auto solved = modal::solve (drum, tensions, { .highestFrequency = 1500.0, .extraFunctions = 8 });
    const double length = drum.depth / drum.radius();

    for (int m = 0; m <= 3; ++m)
    {
        auto full = described (drum);
        full.functions = 6;
        const reference::ExteriorLaplace exterior{ m, full.functions, 48 };
        const auto still = exterior.freeStanding (length);

        // The finite volumes use bare profiles J_m(j_mn r); ∫ J_m² r dr = J_{m+1}(j_mn)²/2 over a unit radius. Outwards is down
        // for the lower head.
        const auto zeros = reference::zerosOfJ (m, full.functions);
        const Eigen::Index n = full.functions;
        Eigen::VectorXd norm (n);
        for (Eigen::Index i = 0; i < n; ++i)
            norm (i) = std::sqrt (2.0) / boost::math::cyl_bessel_j (m + 1, zeros[static_cast<std::size_t> (i)]);
        const double unit = drum.air.density * drum.radius();
        Eigen::MatrixXd mass (2 * n, 2 * n);
        const Eigen::MatrixXd self = unit * norm.asDiagonal() * still.self * norm.asDiagonal();
        const Eigen::MatrixXd cross = unit * norm.asDiagonal() * still.cross * norm.asDiagonal();
        mass << self, -cross, -cross, self;
        full.stillExterior = mass;

        // Still air is the limit of low frequency, so only the lowest modes are held to it.
        const auto agreement = compare (solved, m, reference::solveFully (full, m, 420.0));
        CAPTURE (m, agreement.hertz, agreement.relative, agreement.modes);
        CHECK (agreement.relative < 0.01);
    }
}
