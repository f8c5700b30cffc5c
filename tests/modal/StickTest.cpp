// Sticks as beams, and how they meet what they strike.

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/hardware/StickBody.h"

#include "tests/Catch.h"

#include <Eigen/Core>
#include <Eigen/LU>

#include <array>
#include <cmath>
#include <vector>

namespace
{

/** A rod of one diameter that nothing holds, as near as the stick's outline allows: neck and tip as thick as the shaft. */
modal::StickSpec evenRod (double diameter)
{
    modal::StickSpec rod;
    rod.length = 0.5;
    rod.diameter = rod.tipDiameter = rod.neckDiameter = diameter;
    rod.tipLength = 5.0e-3;
    rod.gripStiffness = rod.gripDamping = 0.0;
    return rod;
}

/** Frequencies of the modes that bend the stick, Hz. */
std::vector<double> bending (const modal::StickBody& body)
{
    std::vector<double> out;
    for (int k = 0; k < body.modes; ++k)
        if (const double f = body.mode[static_cast<std::size_t> (k)].frequency; f > 100.0)
            out.push_back (f);
    return out;
}

/** The outline of a stick without its rounded tip: neck, taper, shaft. */
double diameterOf (const modal::StickSpec& stick, double x)
{
    const double behind = x - stick.tipLength;
    if (behind < 0.0)
    {
        const double t = 2.0 * x / stick.tipLength - 1.0, oval = stick.tipDiameter * std::sqrt (std::max (0.0, 1.0 - t * t));
        return t < 0.0 ? std::max (oval, 0.3 * stick.tipDiameter) : std::max (oval, stick.neckDiameter);
    }
    if (behind < stick.taperLength)
        return stick.neckDiameter + (stick.diameter - stick.neckDiameter) * behind / stick.taperLength;
    const double left = stick.length - x, rounding = 7.0e-3;
    return left < rounding ? stick.diameter * std::sqrt (std::max (0.05, 1.0 - std::pow (1.0 - left / rounding, 2))) : stick.diameter;
}

/** Timoshenko's equations of a free stick at one frequency, by transfer matrices of short even pieces, each by a Taylor series of the
    matrix exponential: the determinant that vanishes at a mode. No finite elements. */
double freeEndsDeterminant (const modal::StickSpec& stick, double frequency)
{
    constexpr int pieces = 2000;
    const double w2 = std::pow (modal::units::twoPi * frequency, 2), dx = stick.length / pieces;
    const double E = stick.woodModulus, G = E / 15.0, rho = stick.woodDensity;
    Eigen::Matrix4d whole = Eigen::Matrix4d::Identity();
    for (int i = 0; i < pieces; ++i)
    {
        const double d = diameterOf (stick, (i + 0.5) * dx);
        const double A = modal::units::pi * d * d / 4.0, I = modal::units::pi * std::pow (d, 4) / 64.0;
        // State: deflection, turn of the section, moment, shear force.
        Eigen::Matrix4d rate = Eigen::Matrix4d::Zero();
        rate (0, 1) = 1.0;
        rate (0, 3) = 1.0 / (0.9 * G * A);
        rate (1, 2) = 1.0 / (E * I);
        rate (2, 1) = -rho * I * w2;
        rate (2, 3) = -1.0;
        rate (3, 0) = -rho * A * w2;
        Eigen::Matrix4d term = Eigen::Matrix4d::Identity(), step = term;
        for (int n = 1; n <= 6; ++n)
        {
            term = term * rate * (dx / n);
            step += term;
        }
        whole = step * whole;
        // Only ratios matter.
        whole /= whole.cwiseAbs().maxCoeff();
    }
    return whole.block<2, 2> (2, 0).determinant();
}

double rootBetween (const modal::StickSpec& stick, double low, double high)
{
    const bool sign = freeEndsDeterminant (stick, low) > 0.0;
    REQUIRE (sign != (freeEndsDeterminant (stick, high) > 0.0));
    for (int i = 0; i < 30; ++i)
    {
        const double middle = 0.5 * (low + high);
        ((freeEndsDeterminant (stick, middle) > 0.0) == sign ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace

// Roots of cos x cosh x = 1, which any vibration handbook lists: 4.7300, 7.8532, 10.9956.
TEST_CASE ("A thin even rod without a hand rings as Euler and Bernoulli say")
{
    const auto rod = evenRod (8.0e-3);
    const auto found = bending (modal::solveStick (rod));
    REQUIRE (found.size() >= 3);
    const std::array<double, 3> roots{ 4.7300, 7.8532, 10.9956 };
    for (std::size_t i = 0; i < roots.size(); ++i)
    {
        const double speed = std::sqrt (rod.woodModulus / rod.woodDensity) * rod.diameter / 4.0; // sqrt (EI/ρA)
        const double expected = std::pow (roots[i] / rod.length, 2) * speed / modal::units::twoPi;
        INFO ("mode " << i + 1 << ": " << found[i] << " Hz, thin beam " << expected);
        // Shear and the rounded butt take a little, the more the shorter the waves.
        CHECK (found[i] == Approx (expected).epsilon (0.01 + 0.01 * static_cast<double> (i)));
    }
}

TEST_CASE ("A tapered stick rings as transfer matrices say")
{
    modal::StickSpec stick;
    stick.gripStiffness = stick.gripDamping = 0.0;
    const auto found = bending (modal::solveStick (stick));
    REQUIRE (found.size() >= 6);
    for (std::size_t i = 0; i < 6; ++i)
    {
        const double expected = rootBetween (stick, 0.93 * found[i], 1.07 * found[i]);
        INFO ("mode " << i + 1 << ": " << found[i] << " Hz, transfer matrices " << expected);
        CHECK (found[i] == Approx (expected).epsilon (0.015));
    }
}

// An independent finite-difference calculation of a hickory stick of 406 × 14.3 mm with a taper of 90 mm and a 10 mm tip: 46 g, 9 g at the
// tip, modes near 360, 900, 1600, 2600, 3900 and 5400 Hz. It had no shear, which lowers the high ones here.
TEST_CASE ("A medium hickory stick weighs what such sticks weigh and presents nine grams at its tip")
{
    const auto body = modal::solveStick ({});
    CHECK (body.mass == Approx (0.046).epsilon (0.03));
    CHECK (body.rigidMassAt (body.tipPlace) == Approx (0.009).epsilon (0.06));
    const auto found = bending (body);
    const std::array<double, 6> expected{ 360.0, 900.0, 1600.0, 2600.0, 3900.0, 5400.0 };
    REQUIRE (found.size() >= expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i)
        CHECK (found[i] == Approx (expected[i]).epsilon (0.13));
}

TEST_CASE ("A stick's modes have unit mass, and carry its rigid motion whole")
{
    const auto body = modal::solveStick ({});
    double moving = 0.0, turning = 0.0, straightness = 0.0;
    for (int k = 0; k < body.modes; ++k)
    {
        const auto& mode = body.mode[static_cast<std::size_t> (k)];
        moving += mode.ofTranslation * mode.ofTranslation;
        turning += mode.ofTranslation * mode.at (0.37);
        straightness += mode.ofRotation * mode.at (1.0);
    }
    // Twice the energy of stick and hand at 1 m/s, and the speed of any place of them.
    CHECK (moving == Approx (body.mass + modal::StickSpec{}.handMass).epsilon (1.0e-6));
    CHECK (turning == Approx (1.0).epsilon (1.0e-6));
    CHECK (straightness == Approx (body.length).epsilon (1.0e-6));
}

// Hertz for a sphere on a plane: force = 4/3 E* √R δ^1.5 (K. L. Johnson, Contact Mechanics, 1985, eq. 4.23, from memory). A steel ball of
// 10 mm radius on steel (E 210 GPa, ν 0.3 for both) approaches by 2.05 µm under 45 N: (3F/(4E*√R))^(2/3) by hand.
TEST_CASE ("Hertz's stiffness, and that of a wooden tip")
{
    const double plane = 210.0e9 / (2.0 * (1.0 - 0.09));
    const double stiffness = modal::hertzStiffness (plane, 0.010);
    CHECK (std::pow (45.0 / stiffness, 2.0 / 3.0) == Approx (2.05e-6).epsilon (0.01));
    // Wood across its grain and a radius of some 5 mm: about 1e8 N/m^1.5; nylon is harder.
    const auto wood = modal::solveStick ({});
    modal::StickSpec spec;
    spec.tipMaterial = modal::StickSpec::TipMaterial::nylon;
    CHECK (wood.tipStiffness == Approx (1.0e8).epsilon (0.3));
    CHECK (modal::solveStick (spec).tipStiffness > 2.0 * wood.tipStiffness);
}

// Roots of cos x cosh x = -1, which any vibration handbook lists: 1.8751, 4.6941, 7.8548; a force at the end bends a cantilever by F L³/3EI.
TEST_CASE ("A brush's wire rings as a cantilever, and the wires together are as stiff as so many")
{
    for (const auto material : { modal::StickSpec::BrushMaterial::steel, modal::StickSpec::BrushMaterial::nylon })
    {
        modal::StickSpec brush;
        brush.brushWires = 120;
        brush.brushMaterial = material;
        const bool isSteel = material == modal::StickSpec::BrushMaterial::steel;
        const double modulus = isSteel ? 200.0e9 : 2.5e9, density = isSteel ? 7850.0 : 1140.0, d = brush.brushWireDiameter,
                     length = brush.brushWireLength;
        const auto body = modal::solveStick (brush);
        REQUIRE (body.isBrush());
        const std::array<double, 3> roots{ 1.8751, 4.6941, 7.8548 };
        for (std::size_t i = 0; i < roots.size(); ++i)
            CHECK (body.mode[i].frequency == Approx (std::pow (roots[i] / length, 2) * std::sqrt (modulus / density) * d / 4.0 / modal::units::twoPi)
                                   .epsilon (1.0e-3));

        const double moment = modal::units::pi * std::pow (d, 4) / 64.0;
        const double stiffness = 120.0 * 3.0 * modulus * moment / std::pow (length * std::cos (body.lean), 2) / length;
        // The modes left out give a little, and those in between have fewer wires.
        CHECK (body.pressStiffness == Approx (stiffness).epsilon (0.03));
    }
}

TEST_CASE ("A stick out of range is refused by name")
{
    modal::StickSpec stick;
    stick.woodDensity = 100.0;
    CHECK_THROWS_WITH (modal::solveStick (stick), Catch::Contains ("stick wood density") && Catch::Contains ("350"));
}
