#include "Cavity.h"

#include "Modal/mathematics/Bessel.h"
#include "Modal/Units.h"

#include <cmath>

namespace modal::cavity
{

namespace
{

/** End correction of an open end in radii: unflanged 0.6133 (Levine & Schwinger 1948), flanged 0.8217 (Nomura et al. 1960).

    Those hold for plane waves at low ka; higher ψ_q die out before they reach the end, so that theirs hardly matters. */
double endCorrection (Surround surround) noexcept
{
    return surround == Surround::baffled ? 0.8217 : 0.6133;
}

Eigen::VectorXd transverseZeros (int m, int count)
{
    const auto zeros = besselPrimeZeros (m, m == 0 ? count - 1 : count);
    Eigen::VectorXd all (count);
    all[0] = 0.0;

    for (std::size_t i = 0; i < zeros.size(); ++i)
        all[static_cast<Eigen::Index> (i) + (m == 0 ? 1 : 0)] = zeros[i];

    return all;
}

/** Mass of ψ_q with every wave in it, and its slope with ω²: the closed form's expansion at ω = 0 without the air spring. */
void addWholeMass (Order& order, Eigen::Index q, const DrumSpec& drum)
{
    const double length = order.length, rho = drum.air.density;
    const double perSpeed = rho / (drum.air.soundSpeed * drum.air.soundSpeed);
    const double beta = order.zeros[q] / drum.radius(), steps = beta * length;
    const bool isOpen = drum.bottom == Bottom::open;

    if (steps <= 0.0) // the constant: powers of kL
    {
        order.selfMass[q] = rho * length / (isOpen ? 1.0 : 3.0);
        order.selfSlope[q] = perSpeed * std::pow (length, 3) / (isOpen ? 3.0 : 45.0);
        order.crossMass[q] = isOpen ? 0.0 : rho * length / 6.0;
        order.crossSlope[q] = isOpen ? 0.0 : perSpeed * std::pow (length, 3) * 7.0 / 360.0;
    }
    else if (isOpen)
    {
        const double t = std::tanh (steps), sech = 1.0 / std::cosh (steps);
        order.selfMass[q] = rho * t / beta;
        order.selfSlope[q] = perSpeed / (2.0 * beta) * (t / (beta * beta) - length * sech * sech / beta);
    }
    else
    {
        const double coth = 1.0 / std::tanh (steps), csch = 1.0 / std::sinh (steps);
        order.selfMass[q] = rho * coth / beta;
        order.selfSlope[q] = perSpeed / (2.0 * beta) * (length * csch * csch / beta + coth / (beta * beta));
        order.crossMass[q] = -rho * csch / beta;
        order.crossSlope[q] = -perSpeed / (2.0 * beta) * (length * csch * coth / beta + csch / (beta * beta));
    }
}

/** Takes the standing waves of ψ_q below the cutoff out of its mass and lists them. */
void splitOffWaves (Order& order, Eigen::Index q, const DrumSpec& drum, double cutoff)
{
    const bool isOpen = drum.bottom == Bottom::open;
    const double c = drum.air.soundSpeed, beta = order.zeros[q] / drum.radius();

    for (int s = 0;; ++s)
    {
        const double along = (isOpen ? s + 0.5 : s) * units::pi / order.length;
        const double omega = c * std::hypot (beta, along);

        if (omega >= cutoff)
            return;

        if (omega == 0.0) // the air spring
            continue;

        const double weight = s == 0 && ! isOpen ? 1.0 : 2.0;
        const double stiffness = weight * drum.air.density * c * c / order.length;
        const double lowerSign = drum.hasResonantHead() ? (s % 2 == 0 ? -1.0 : 1.0) : 0.0;
        const double mass = stiffness / (omega * omega);

        order.waves.push_back ({ static_cast<int> (q), omega, stiffness, lowerSign });
        order.selfMass[q] -= mass;
        order.crossMass[q] -= lowerSign * mass;
        order.selfSlope[q] -= mass / (omega * omega);
        order.crossSlope[q] -= lowerSign * mass / (omega * omega);
    }
}

} // namespace

Order describe (int m, const Eigen::VectorXd& zeros, const DrumSpec& drum, double cutoff)
{
    Order order;

    // ∫ φ_n ψ_q dA falls as 1/β², and the mass it carries as 1/β³, so twenty beyond the last head function leave nothing to see.
    const auto count = static_cast<int> (zeros.size()) + 20;
    order.zeros = transverseZeros (m, count);
    order.length = drum.depth + (drum.bottom == Bottom::open ? endCorrection (drum.surround) * drum.radius() : 0.0);
    order.overlap.resize (zeros.size(), count);
    order.selfMass.setZero (count);
    order.crossMass.setZero (count);
    order.selfSlope.setZero (count);
    order.crossSlope.setZero (count);

    for (Eigen::Index q = 0; q < count; ++q)
    {
        const double beta = order.zeros[q];
        const double norm = m == 0 ? 1.0 : std::sqrt (1.0 - std::pow (m / beta, 2));
        order.overlap.col (q) = (2.0 / norm) * zeros.array() / (zeros.array().square() - beta * beta);

        addWholeMass (order, q, drum);
        splitOffWaves (order, q, drum, cutoff);
    }

    if (m == 0 && drum.bottom != Bottom::open)
        order.springStiffness = drum.air.density * drum.air.soundSpeed * drum.air.soundSpeed / order.length;

    return order;
}

Eigen::ArrayXd openEndMotion (const Order& order, double angularFrequency, const DrumSpec& drum)
{
    // The wave's displacement goes with cos(k_z z') from the open end, z' = 0, to the head, z' = L.
    const double k = angularFrequency / drum.air.soundSpeed;

    return order.zeros.array().unaryExpr (
        [&] (double zero)
        {
            const double beta = zero / drum.radius();
            const double squared = k * k - beta * beta;
            const double steps = std::sqrt (std::abs (squared)) * order.length;
            return squared >= 0.0 ? 1.0 / std::cos (steps) : 1.0 / std::cosh (steps);
        });
}

} // namespace modal::cavity
