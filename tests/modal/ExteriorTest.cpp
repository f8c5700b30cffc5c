#include "Modal/air/Exterior.h"

#include "Drums.h"
#include "reference/BesselZero.h"
#include "reference/ExteriorLaplace.h"
#include "reference/FullSolve.h"
#include "tests/Catch.h"

#include <boost/math/special_functions/bessel.hpp>
#include <cmath>

namespace
{
constexpr int functions = 4;

Eigen::VectorXd zerosOf (int m)
{
    const auto zeros = reference::zerosOfJ (m, functions);
    return Eigen::Map<const Eigen::VectorXd> (zeros.data(), functions);
}

/** From the bare profiles J_m(j_mn r) of the finite volumes to normalised functions whose slope at the rim is negative. */
Eigen::MatrixXd normalised (const Eigen::MatrixXd& bare, int m)
{
    const auto zeros = zerosOf (m);
    Eigen::VectorXd norm (functions);
    for (Eigen::Index i = 0; i < functions; ++i)
        norm (i) = std::sqrt (2.0) / boost::math::cyl_bessel_j (m + 1, zeros (i));
    return norm.asDiagonal() * bare * norm.asDiagonal();
}

double largestRelativeTo (const Eigen::MatrixXd& difference, const Eigen::MatrixXd& whole)
{
    return difference.cwiseAbs().maxCoeff() / whole.cwiseAbs().maxCoeff();
}
} // namespace

TEST_CASE ("Finite volumes give the baffled mass that the wavenumber integral gives", "[exterior]")
{
    for (const int m : { 0, 1, 2, 5 })
    {
        const Eigen::MatrixXd volumes = normalised (reference::ExteriorLaplace{ m, functions, 64 }.baffled(), m);
        const Eigen::MatrixXd integral = reference::baffledMass (m, functions, 1.0, 1.0, 0.0);
        CAPTURE (m);
        // The reference's transforms carry the sign of J_m'; compare magnitudes on the diagonal, which is what sets frequencies.
        for (Eigen::Index n = 0; n < functions; ++n)
            CHECK (volumes (n, n) == Approx (integral (n, n)).epsilon (0.02));
    }
}

TEST_CASE ("Baffled mass agrees with an independent quadrature", "[exterior]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    for (int m = 0; m <= 8; ++m)
    {
        const auto mass = modal::exterior::staticMass (m, zerosOf (m), drum);
        const auto expected = reference::baffledMass (m, functions, drum.radius(), drum.air.density, 0.0);
        CAPTURE (m);
        // Signs of the functions are a convention; the products' magnitudes are not. The library ends its integral at x = 60,
        // where the least that is left out is a few parts in 1e5.
        CHECK (largestRelativeTo (mass.self.cwiseAbs() - expected.cwiseAbs(), expected) < 1.0e-4);
        CHECK (mass.cross.cwiseAbs().maxCoeff() == 0.0);
    }
}

TEST_CASE ("The change of baffled mass with frequency agrees with an independent quadrature", "[exterior]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    for (const int m : { 0, 1, 2, 5 })
    {
        const auto still = modal::exterior::staticMass (m, zerosOf (m), drum);
        const modal::exterior::MassChange change (m, zerosOf (m), still.rim, drum);
        for (const double ka : { 0.3, 1.7, 3.99, 4.01, 6.4 })
        {
            const double k = ka / drum.radius();
            const auto expected = reference::baffledMass (m, functions, drum.radius(), drum.air.density, k);
            const Eigen::MatrixXd mass = still.self + change.matrix (k);
            CAPTURE (m, ka);
            CHECK (largestRelativeTo (mass.cwiseAbs() - expected.cwiseAbs(), expected) < 1.0e-3);

            const Eigen::VectorXd motion = Eigen::VectorXd::LinSpaced (functions, 1.0, -0.3);
            CHECK (change.of (motion, k) == Approx (motion.dot (change.matrix (k) * motion)).epsilon (1.0e-9).margin (1.0e-12));
        }
    }
}

TEST_CASE ("The air mass on a paraboloid shape equals a Weber-Schafheitlin integral", "[exterior]")
{
    // A baffled head that moves as 1 − r² has the transform 2J₂(x)/x², so its mass is ρa ∫ 4 J₂² x⁻⁴ dx, which DLMF 10.22.57
    // gives in closed form: ∫ J_ν² t^−λ dt = Γ(λ) Γ(ν + (1−λ)/2) / (2^λ Γ((1+λ)/2)² Γ(ν + (1+λ)/2)).
    const double integral = std::tgamma (4.0) * std::tgamma (0.5) / (16.0 * std::pow (std::tgamma (2.5), 2) * std::tgamma (4.5));

    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    const auto zeros = reference::zerosOfJ (0, 20);
    const Eigen::VectorXd j = Eigen::Map<const Eigen::VectorXd> (zeros.data(), 20);
    // 1 − r² = Σ 8/(j³ J₁(j)) J₀(jr), on functions normalised to √2 J₀(jr)/J₁(j).
    const Eigen::VectorXd coefficients = 8.0 / std::sqrt (2.0) * j.array().pow (-3.0);
    const double mass = coefficients.dot (modal::exterior::staticMass (0, j, drum).self * coefficients);
    CHECK (mass == Approx (4.0 * integral * drum.air.density * drum.radius()).epsilon (5.0e-5));
}

TEST_CASE ("Free-standing mass agrees with finite volumes around a rigid cylinder", "[exterior]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::freeStanding;
    for (const int m : { 0, 1, 2, 3, 5 })
        for (const double length : { 0.4, 0.72, 1.1 })
        {
            drum.depth = length * drum.radius();
            const auto fitted = modal::exterior::staticMass (m, zerosOf (m), drum);
            const auto volumes = reference::ExteriorLaplace{ m, functions, 48 }.freeStanding (length);
            const double unit = drum.air.density * drum.radius();
            const Eigen::MatrixXd self = unit * normalised (volumes.self, m), cross = unit * normalised (volumes.cross, m);

            const double selfError = largestRelativeTo (fitted.self - self, self);
            const double crossError = largestRelativeTo (fitted.cross - cross, self);
            CAPTURE (m, length, selfError, crossError, fitted.self (0, 0), self (0, 0), fitted.cross (0, 0), cross (0, 0));
            CHECK (selfError < 0.02);
            CHECK (crossError < 0.02);
        }
}

TEST_CASE ("Heads that move in the same direction radiate as finite volumes around a rigid cylinder do", "[exterior]")
{
    // At small ka the power is that of two sources of opposite sign at the height h above the middle: (ka h)²/3 of what the same
    // sources of one sign radiate, (ka h)²/5 for dipoles across the axis.
    auto drum = drums::snare();
    drum.surround = modal::Surround::freeStanding;
    constexpr double ka = 0.05;
    for (const int m : { 0, 1 })
        for (const double length : { 0.4, 0.72, 1.1, 1.5 })
        {
            drum.depth = length * drum.radius();
            const Eigen::ArrayXd up =
                modal::exterior::headTransforms (m, zerosOf (m), ka * modal::exterior::sines()).col (0).array();
            const auto power = [&] (double lower)
            { return modal::exterior::resistance (m, up, lower * up, ka / drum.radius(), drum); };
            const double fitted = std::sqrt ((m == 0 ? 3.0 : 5.0) * power (-1.0) / power (1.0)) / ka;
            const double volumes = 0.5 * length + reference::ExteriorLaplace{ m, 1, 32 }.farCentreOffset (length);
            CAPTURE (m, length);
            CHECK (fitted == Approx (volumes).epsilon (0.05));
        }
}
