#include "Losses.h"

#include "Modal/Units.h"
#include "Modal/air/Exterior.h"

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

/** A head's part in a mode: its coefficients and what they are multiplied with. */
struct HeadPart
{
    const HeadConstruction& head;
    Eigen::VectorXd coefficients;
    const Eigen::MatrixXd& extraMass;
    double tension;
};

double filmRate (const HeadPart& part, const Eigen::VectorXd& zeros, double omega, double radius)
{
    // A loss factor η of a spring that holds the share s of the mode's potential energy decays at ½ η s ω; that energy is ½ω² for
    // unit modal mass.
    const double stored = part.tension * (zeros.cwiseProduct (part.coefficients) / radius).squaredNorm();
    const double glued = part.coefficients.dot (part.extraMass * part.coefficients);
    const double factor = LossConstants::film + LossConstants::coating * part.head.coatingDensity;
    return 0.5 * omega * (factor * stored / (omega * omega) + LossConstants::glue * glued);
}

double bendingRate (const HeadPart& part, const Eigen::VectorXd& zeros, double omega, double radius)
{
    const Eigen::VectorXd waveNumbers = zeros / radius;
    const double stored = part.head.bendingStiffness() * waveNumbers.cwiseAbs2().cwiseProduct (part.coefficients).squaredNorm();
    return 0.5 * LossConstants::bending * stored / omega;
}

double plyRate (const HeadPart& part, const Eigen::VectorXd& zeros, double omega, double radius)
{
    if (part.head.plies < 2)
        return 0.0;

    const double stored = part.tension * (zeros.cwiseProduct (part.coefficients) / radius).squaredNorm();
    return 0.5 * LossConstants::ply * stored / omega;
}

double edgeRate (const HeadPart& part, const Eigen::VectorXd& zeros, double omega, const DrumSpec& drum)
{
    // The edge takes the power Y f² per length, f = T ∂w/∂r; around the rim that is (2/a³) (Σ j c)² T² q² on this basis, of an
    // energy ω² q².
    const double conductance =
        LossConstants::edgeOfShell + LossConstants::edgeOfMaterial * findMaterial (drum.shell.material).lossFactor;
    const double slope = zeros.dot (part.coefficients);
    const double force = part.tension * slope / omega;
    return 0.5 * conductance * 2.0 / std::pow (drum.radius(), 3) * force * force;
}

/** Rate of a rigid-walled cavity's waves from friction and heat exchange in the boundary layer of its walls (Kirchhoff's layers,
    mean over the modes: half of the surface is rubbed, all of it exchanges heat). */
double wallRate (double omega, const DrumSpec& drum)
{
    const double viscousLayer = std::sqrt (2.0 * drum.air.viscosity / (drum.air.density * omega));
    const double thermalLayer = viscousLayer / std::sqrt (drum.air.prandtl);
    const double surfaceOverVolume = 2.0 / drum.radius() + 2.0 / drum.depth;
    return 0.25 * omega * surfaceOverVolume * (0.5 * viscousLayer + (drum.air.heatRatio - 1.0) * thermalLayer);
}

/** Resistance over mass of the vent's plug: friction on its wall (Ingard 1953: ½√(2μρω) per wall area, over the hole and its
 * rims) and radiation. */
double ventRate (double omega, const DrumSpec& drum)
{
    const auto& air = drum.air;
    const double diameter = drum.vent.diameter, area = drum.vent.area();
    const double wall = units::pi * diameter * (drum.vent.length + diameter);
    const double friction = 0.5 * std::sqrt (2.0 * air.viscosity * air.density * omega) * wall;
    const double radiation = air.density * omega * omega * area * area / (2.0 * units::twoPi * air.soundSpeed);
    const double mass = air.density * area * drum.vent.effectiveLength();
    return 0.5 * (friction + radiation) / mass;
}

double airRate (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec& drum)
{
    if (drum.air.isVacuum())
        return 0.0;

    const double waves =
        shape.segment (problem.firstWave(), static_cast<Eigen::Index> (problem.inside.waves.size())).squaredNorm();
    const double plug = problem.hasVent() ? std::pow (shape[problem.ventIndex()], 2) : 0.0;
    double rate = waves * wallRate (omega, drum);

    if (plug > 0.0)
        rate += plug * ventRate (omega, drum);

    return rate;
}

double radiationRate (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec& drum)
{
    if (drum.air.isVacuum())
        return 0.0;

    const double k = omega / drum.air.soundSpeed;
    const auto count = problem.functions();
    const Eigen::ArrayXd x = k * drum.radius() * exterior::sines();
    const Eigen::MatrixXd transforms = exterior::headTransforms (problem.m, problem.zeros, x);
    const Eigen::ArrayXd upper = transforms * shape.head (count);
    Eigen::ArrayXd lower = Eigen::ArrayXd::Zero (x.size()); // outwards, so downwards

    if (problem.hasResonant)
    {
        lower = -(transforms * shape.segment (count, count)).array();
    }
    else if (drum.bottom == Bottom::open)
    {
        const Eigen::ArrayXd moved = (problem.inside.overlap.transpose() * shape.head (count)).array() *
                                     cavity::openEndMotion (problem.inside, omega, drum);
        lower = -(exterior::apertureTransforms (problem.m, problem.inside.zeros, x) * moved.matrix()).array();
    }

    return 0.5 * exterior::resistance (problem.m, upper, lower, k, drum);
}

} // namespace

Decay decayOf (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec& drum,
               const Tensions& tensions)
{
    const auto count = problem.functions();
    const double radius = drum.radius();
    Decay decay;

    const auto addHead = [&] (const HeadPart& part)
    {
        decay.film += filmRate (part, problem.zeros, omega, radius);
        decay.bending += bendingRate (part, problem.zeros, omega, radius);
        decay.ply += plyRate (part, problem.zeros, omega, radius);
        decay.edge += edgeRate (part, problem.zeros, omega, drum);
    };

    addHead ({ drum.batter, shape.head (count), problem.batterExtra, tensions.batter });

    if (problem.hasResonant)
        addHead ({ drum.resonant, shape.segment (count, count), problem.resonantExtra, tensions.resonant });

    decay.air = airRate (problem, shape, omega, drum);
    decay.radiation = radiationRate (problem, shape, omega, drum);
    return decay;
}

} // namespace modal
