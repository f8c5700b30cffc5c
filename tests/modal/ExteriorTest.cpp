#include "Modal/Exterior.h"

#include "Drums.h"
#include "reference/BesselZero.h"
#include "reference/ExteriorLaplace.h"
#include "reference/FullSolve.h"
#include "tests/Catch.h"

#include <boost/math/special_functions/bessel.hpp>

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
        const Eigen::MatrixXd volumes = normalised (reference::ExteriorLaplace{ m, functions, 48 }.baffled(), m);
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
        // Signs of the functions are a convention; the products' magnitudes are not.
        CHECK (largestRelativeTo (mass.self.cwiseAbs() - expected.cwiseAbs(), expected) < 1.0e-5);
        CHECK (mass.cross.cwiseAbs().maxCoeff() == 0.0);
    }
}

TEST_CASE ("A piston-like baffled head has the textbook's radiation mass", "[exterior]")
{
    // The (0,1) membrane's mass is bounded by the piston's 8ρa/3π and by Rayleigh's principle: among velocity profiles of equal
    // volume flow none has less kinetic energy in still air than flow through an open hole, 2a wide: the mass of a conductance 2a
    // (Rayleigh).
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    const auto zeros = zerosOf (0);
    const double mass = modal::exterior::staticMass (0, zeros, drum).self (0, 0);

    // Normalised to unit mean square; volume flow of φ_01 is πa² · 2/j_01 in units of its r.m.s.
    const double flow = 2.0 / zeros (0);
    const double openHole = drum.air.density * modal::units::pi * drum.radius() / 4.0 * flow * flow;
    CHECK (mass > openHole);
    CHECK (mass < 1.15 * openHole);
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
