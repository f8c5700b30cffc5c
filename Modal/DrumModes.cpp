#include "DrumModes.h"

#include "Modal/mathematics/Bessel.h"
#include "Units.h"

#include <cmath>
#include <limits>

namespace modal
{

std::string nameOf (const Mode& mode)
{
    constexpr double leastOfOneKind = 2.0 / 3.0;
    return "(" + std::to_string (mode.m) + "," + std::to_string (mode.n) + ")" + (mode.purity < leastOfOneKind ? " mixed" : "");
}

double Mode::angularFrequency() const noexcept
{
    return units::twoPi * frequency;
}

double Decay::t60() const noexcept
{
    const double rate = total();
    return rate > 0.0 ? std::log (1000.0) / rate : std::numeric_limits<double>::infinity();
}

double BasisFunction::at (double r, double theta, double a) const
{
    if (r >= a)
        return 0.0;

    const double around = m == 0 ? std::sqrt (0.5) : parity == Parity::cosine ? std::cos (m * theta) : std::sin (m * theta);
    const double amplitude = -std::sqrt (2.0 / units::pi) / (a * besselJPrime (m, zero));
    return amplitude * besselJ (m, zero * r / a) * around;
}

namespace
{

Eigen::VectorXd basisAt (const DrumModes& drum, double r, double theta)
{
    Eigen::VectorXd values (static_cast<Eigen::Index> (drum.basis.size()));

    for (std::size_t i = 0; i < drum.basis.size(); ++i)
        values[static_cast<Eigen::Index> (i)] = drum.basis[i].at (r, theta, drum.radius);

    return values;
}

} // namespace

Eigen::VectorXd DrumModes::batterShapeAt (double r, double theta) const
{
    return batter.transpose() * basisAt (*this, r, theta);
}

Eigen::VectorXd DrumModes::resonantShapeAt (double r, double theta) const
{
    return resonant.transpose() * basisAt (*this, r, theta);
}

} // namespace modal
