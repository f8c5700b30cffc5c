#include "Exterior.h"

#include "Modal/mathematics/BesselTable.h"
#include "Modal/mathematics/Quadrature.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace modal::exterior
{

namespace
{

/** γ of the header: how much of the rim potential's mass a free-standing drum loses. */
double rimRelaxation (int m) noexcept
{
    return m == 0 ? 0.271 : 0.292;
}

/** How far, in radii, a head's acoustic centre stands out from the drum: half of what adds to the depth between the heads. */
double centreOffset (int m) noexcept
{
    return m == 0 ? 0.8 : 0.5;
}

Eigen::ArrayXd besselAt (int m, const Eigen::ArrayXd& x)
{
    const auto& table = BesselTable::shared();
    return x.unaryExpr ([&table, m] (double value) { return table (m, value); });
}

/** A rule in x whose end is far above the last zero, where what is left of Ŵ² falls as x⁻⁵. */
Quadrature wavenumbers (const Eigen::VectorXd& zeros)
{
    const double end = std::min (std::max (60.0, 3.0 * zeros[zeros.size() - 1]), BesselTable::highestArgument);
    return compositeGaussLegendre (12, static_cast<int> (end / 3.0), 0.0, end);
}

Eigen::Map<const Eigen::ArrayXd> mapped (const std::vector<double>& values)
{
    return { values.data(), static_cast<Eigen::Index> (values.size()) };
}

} // namespace

double radiationShare (Surround surround, double ka) noexcept
{
    return surround == Surround::baffled ? 0.0 : 1.0 / (1.0 + std::pow (ka / 1.35, 6));
}

double massShare (Surround surround, double ka) noexcept
{
    return surround == Surround::baffled ? 0.0 : 1.0 / (1.0 + std::pow (ka / 0.78, 4));
}

Eigen::MatrixXd headTransforms (int m, const Eigen::VectorXd& zeros, const Eigen::ArrayXd& x)
{
    const Eigen::ArrayXd bessel = std::numbers::sqrt2 * besselAt (m, x);
    Eigen::MatrixXd transforms (x.size(), zeros.size());

    for (Eigen::Index n = 0; n < zeros.size(); ++n)
        transforms.col (n) = zeros[n] * bessel / (zeros[n] * zeros[n] - x.square());

    return transforms;
}

Eigen::MatrixXd apertureTransforms (int m, const Eigen::VectorXd& cavityZeros, const Eigen::ArrayXd& x)
{
    // x J_m'(x) = m J_m(x) − x J_{m+1}(x)
    const Eigen::ArrayXd slope = std::numbers::sqrt2 * (m * besselAt (m, x) - x * besselAt (m + 1, x));
    Eigen::MatrixXd transforms (x.size(), cavityZeros.size());

    for (Eigen::Index q = 0; q < cavityZeros.size(); ++q)
    {
        const double beta = cavityZeros[q];
        const double norm = m == 0 ? 1.0 : std::sqrt (1.0 - std::pow (m / beta, 2));
        transforms.col (q) = slope / ((beta * beta - x.square()) * norm);
    }

    return transforms;
}

Mass staticMass (int m, const Eigen::VectorXd& zeros, const DrumSpec& drum)
{
    const auto rule = wavenumbers (zeros);
    const auto x = mapped (rule.points);
    const auto weights = mapped (rule.weights);
    const Eigen::MatrixXd transforms = headTransforms (m, zeros, x);
    const double unit = drum.air.density * drum.radius();

    Mass mass;
    mass.self = unit * transforms.transpose() * weights.matrix().asDiagonal() * transforms;
    mass.cross = Eigen::MatrixXd::Zero (zeros.size(), zeros.size());
    mass.rim = Eigen::VectorXd::Zero (zeros.size());

    if (drum.surround == Surround::freeStanding)
    {
        mass.rim = transforms.transpose() * (besselAt (m, x) * weights).matrix();
        mass.self -= unit * rimRelaxation (m) * mass.rim * mass.rim.transpose();

        const double distance = drum.depth / drum.radius() + 2.0 * centreOffset (m);
        const Eigen::ArrayXd reach = 0.5 * weights * (-distance * x).exp();
        mass.cross = unit * transforms.transpose() * reach.matrix().asDiagonal() * transforms;
    }

    return mass;
}

MassChange::MassChange (int order, const Eigen::VectorXd& besselZeros, const Eigen::VectorXd& rimPotential, const DrumSpec& drum)
    : m (order), zeros (besselZeros), rim (rimPotential), radius (drum.radius()), density (drum.air.density),
      surround (drum.surround)
{
    // What the load loses with k dies out much faster than the load itself: a shorter and coarser rule does.
    const double end = std::min (zeros[zeros.size() - 1] + 20.0, BesselTable::highestArgument);
    const auto rule = compositeGaussLegendre (6, static_cast<int> (end / 3.5) + 1, 0.0, end);
    wavenumbers = mapped (rule.points);
    weights = mapped (rule.weights);
    still = transformsAt (0.0);
}

Eigen::MatrixXd MassChange::transformsAt (double k) const
{
    return headTransforms (m, zeros, (wavenumbers.square() + std::pow (k * radius, 2)).sqrt());
}

double MassChange::regained (double k) const
{
    return surround == Surround::baffled ? 0.0 : (1.0 - massShare (surround, k * radius)) * rimRelaxation (m);
}

double MassChange::of (const Eigen::VectorXd& coefficients, double k) const
{
    const Eigen::ArrayXd before = still * coefficients, after = transformsAt (k) * coefficients;
    const double spread = ((after.square() - before.square()) * weights).sum();
    return density * radius * (spread + regained (k) * std::pow (rim.dot (coefficients), 2));
}

Eigen::MatrixXd MassChange::matrix (double k) const
{
    const Eigen::MatrixXd after = transformsAt (k);
    const auto weighted = weights.matrix().asDiagonal();
    return density * radius *
           (after.transpose() * weighted * after - still.transpose() * weighted * still + regained (k) * rim * rim.transpose());
}

namespace
{

const Quadrature& directions()
{
    static const Quadrature rule = gaussLegendre (24, 0.0, 0.5 * units::pi);
    return rule;
}

} // namespace

const Eigen::ArrayXd& sines()
{
    static const Eigen::ArrayXd values = mapped (directions().points).sin();
    return values;
}

double resistance (int m, const Eigen::ArrayXd& upper, const Eigen::ArrayXd& lower, double k, const DrumSpec& drum)
{
    // A free-standing end radiates half its baffled pressure into all directions, a baffled one all of it into one half-space, so
    // each end alone gives half the power; the two ends' sound meets with the phase of their distance.
    const double ka = k * drum.radius();
    const double share = radiationShare (drum.surround, ka);
    const double halfDistance = 0.5 * drum.depth / drum.radius() + centreOffset (m);
    const Eigen::ArrayXd cosines = (1.0 - sines().square()).sqrt();
    const Eigen::ArrayXd apart = (2.0 * ka * halfDistance * cosines).cos();
    const Eigen::ArrayXd power = (1.0 - 0.5 * share) * (upper.square() + lower.square()) + share * upper * lower * apart;

    return k * drum.air.soundSpeed * drum.air.density * drum.radius() * ka *
           (power * sines() * mapped (directions().weights)).sum();
}

} // namespace modal::exterior
