#include "Drums.h"

#include "Modal/OrderProblem.h"

#include "reference/ExteriorLaplace.h"
#include "reference/FullSolve.h"

#include "reference/BesselZero.h"
#include "tests/Catch.h"

#include <Eigen/Eigenvalues>
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

// A mode that loses half of its energy to the air in a few periods is heard as part of the stroke's thud, not as a note.
constexpr double strongRadiation = 60.0; // 1/s: T60 below 0.12 s

struct Agreement
{
    int ringing = 0, radiating = 0;                  ///< modes compared
    double ringingHertz = 0.0;                       ///< largest error of a ringing mode's frequency
    double ringingExcess = 0.0;                      ///< the same over what is allowed, 0.5 Hz or 0.3 %
    double radiatingError = 0.0;                     ///< largest relative error of a strongly radiating mode's frequency
    double ringingDecay = 0.0, radiatingDecay = 0.0; ///< largest relative errors of radiation decay
};

void compare (Agreement& result, const std::vector<modal::Mode>& modes, const std::vector<reference::FullMode>& full)
{
    REQUIRE (modes.size() >= full.size());
    for (std::size_t i = 0; i < full.size(); ++i)
    {
        const auto& mode = modes[i];
        const double hertz = std::abs (mode.frequency - full[i].frequency), relative = hertz / full[i].frequency;
        // What hardly radiates loses its energy otherwise; its radiation need not be known closely.
        const double decay = std::abs (mode.decay.radiation - full[i].radiationDecay) / std::max (0.5, full[i].radiationDecay);
        UNSCOPED_INFO ("(" << mode.m << ",...) " << mode.frequency << " Hz, full solution " << full[i].frequency
                           << " Hz; radiation decay " << mode.decay.radiation << " 1/s, full solution " << full[i].radiationDecay
                           << " 1/s");

        if (full[i].radiationDecay < strongRadiation)
        {
            ++result.ringing;
            result.ringingHertz = std::max (result.ringingHertz, hertz);
            result.ringingExcess = std::max (result.ringingExcess, std::min (hertz / 0.5, relative / 0.003));
            result.ringingDecay = std::max (result.ringingDecay, decay);
        }
        else
        {
            ++result.radiating;
            result.radiatingError = std::max (result.radiatingError, relative);
            result.radiatingDecay = std::max (result.radiatingDecay, decay);
        }
    }
}
} // namespace

TEST_CASE ("The library agrees with a hunt for the complex roots of the full problem", "[full]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    std::tie (drum.bottom, drum.depth) = GENERATE (table<modal::Bottom, double> ({ { modal::Bottom::head, 0.08 },
                                                                                   { modal::Bottom::head, 0.127 },
                                                                                   { modal::Bottom::head, 0.3 },
                                                                                   { modal::Bottom::closed, 0.127 } }));
    const auto solved = modal::solve (drum, tensions);

    Agreement agreement;
    for (int m = 0; m <= 3; ++m)
        compare (agreement, drums::ofOrder (solved, m), reference::solveFully (described (drum), m, band));

    WARN ("depth " << drum.depth << " m: " << agreement.ringing << " ringing modes below 1 kHz within " << agreement.ringingHertz
                   << " Hz, radiation decay within " << 100.0 * agreement.ringingDecay << " %; " << agreement.radiating
                   << " strongly radiating modes within " << 100.0 * agreement.radiatingError << " %, decay within "
                   << 100.0 * agreement.radiatingDecay << " %");
    CHECK (agreement.ringing + agreement.radiating >= 8);
    CHECK (agreement.ringingExcess < 1.0);
    CHECK (agreement.radiatingError < 0.03);
    CHECK (agreement.ringingDecay < 0.15);
    CHECK (agreement.radiatingDecay < 0.3);
}

TEST_CASE ("A free-standing drum in still air agrees with the full problem over a finite-volume exterior", "[full]")
{
    // Without the exterior's change with frequency, which finite volumes in still air cannot know, the library's order problem
    // and the full problem must agree: this is the cavity, both heads, and the free-standing mass together.
    auto drum = drums::snare();
    drum.surround = modal::Surround::freeStanding;
    const double length = drum.depth / drum.radius();

    for (int m = 0; m <= 3; ++m)
    {
        auto full = described (drum);
        full.functions = 8;
        const auto still = reference::ExteriorLaplace{ m, full.functions, 64 }.freeStanding (length);

        // The finite volumes use bare profiles J_m(j_mn r); ∫ J_m² r dr = J_{m+1}(j_mn)²/2 over a unit radius. Outwards is down
        // for the lower head.
        const auto zeros = reference::zerosOfJ (m, full.functions);
        const Eigen::Index n = full.functions;
        Eigen::VectorXd norm (n);
        for (Eigen::Index i = 0; i < n; ++i)
            norm (i) = std::sqrt (2.0) / std::abs (boost::math::cyl_bessel_j (m + 1, zeros[static_cast<std::size_t> (i)]));
        const double unit = drum.air.density * drum.radius();
        const Eigen::MatrixXd self = unit * norm.asDiagonal() * still.self * norm.asDiagonal();
        const Eigen::MatrixXd cross = unit * norm.asDiagonal() * still.cross * norm.asDiagonal();
        Eigen::MatrixXd mass (2 * n, 2 * n);
        mass << self, -cross, -cross, self;
        full.stillExterior = mass;

        const auto problem = modal::makeOrderProblem (m, 12, drum, tensions, 8000.0);
        const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver (problem.stiffness, problem.mass,
                                                                                Eigen::EigenvaluesOnly);
        const auto expected = reference::solveFully (full, m, band);
        for (std::size_t i = 0; i < expected.size(); ++i)
        {
            const double frequency = std::sqrt (solver.eigenvalues() (static_cast<Eigen::Index> (i))) / modal::units::twoPi;
            CAPTURE (m, i, frequency, expected[i].frequency);
            CHECK (frequency == Approx (expected[i].frequency).epsilon (0.004));
        }
    }
}
