#include "HeadMatrices.h"

#include "Modal/mathematics/Bessel.h"
#include "Modal/mathematics/Quadrature.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace modal
{

namespace
{

/** The basis taken apart: each function is a radial times an angular one, and many share either. */
struct Factors
{
    std::vector<std::pair<int, double>> radials;   ///< order and zero
    std::vector<std::pair<int, Parity>> angulars;  ///< order and parity
    std::vector<Eigen::Index> radialOf, angularOf; ///< for each basis function
};

template <typename Item>
Eigen::Index indexIn (std::vector<Item>& items, std::map<Item, Eigen::Index>& known, const Item& item)
{
    const auto [place, isNew] = known.try_emplace (item, static_cast<Eigen::Index> (items.size()));

    if (isNew)
        items.push_back (item);

    return place->second;
}

Factors factorsOf (const std::vector<BasisFunction>& basis)
{
    Factors factors;
    std::map<std::pair<int, double>, Eigen::Index> knownRadials;
    std::map<std::pair<int, Parity>, Eigen::Index> knownAngulars;

    for (const auto& function : basis)
    {
        factors.radialOf.push_back (indexIn (factors.radials, knownRadials, { function.m, function.zero }));
        factors.angularOf.push_back (indexIn (factors.angulars, knownAngulars, { function.m, function.parity }));
    }

    return factors;
}

/** Radial functions of unit radius and their slopes at the points of a rule: one row per point, one column per function. */
struct RadialSamples
{
    Eigen::MatrixXd value, slope;
};

RadialSamples sampleRadials (const Factors& factors, const Quadrature& rule)
{
    const auto points = static_cast<Eigen::Index> (rule.points.size());
    const auto count = static_cast<Eigen::Index> (factors.radials.size());
    RadialSamples samples{ Eigen::MatrixXd (points, count), Eigen::MatrixXd (points, count) };

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto [m, zero] = factors.radials[static_cast<std::size_t> (i)];
        const double amplitude = -std::sqrt (2.0 / units::pi) / besselJPrime (m, zero) * (m == 0 ? std::sqrt (0.5) : 1.0);

        for (Eigen::Index k = 0; k < points; ++k)
        {
            const double x = zero * rule.points[static_cast<std::size_t> (k)];
            const auto j = besselJUpTo (m + 1, x);
            const double value = j[static_cast<std::size_t> (m)];
            samples.value (k, i) = amplitude * value;
            samples.slope (k, i) = amplitude * zero * (m / x * value - j[static_cast<std::size_t> (m) + 1]);
        }
    }

    return samples;
}

/** Angular functions and their derivatives at evenly spaced angles, enough for exact sums of three of them. */
struct AngularSamples
{
    Eigen::ArrayXd angles;
    Eigen::MatrixXd value, slope;
};

AngularSamples sampleAngulars (const Factors& factors, int highestHarmonic)
{
    int highest = 0;

    for (const auto& [m, parity] : factors.angulars)
        highest = std::max (highest, m);

    const Eigen::Index points = 2 * highest + highestHarmonic + 1;
    const auto count = static_cast<Eigen::Index> (factors.angulars.size());
    AngularSamples samples{ Eigen::ArrayXd::LinSpaced (points, 0.0, units::twoPi * (1.0 - 1.0 / static_cast<double> (points))),
                            Eigen::MatrixXd (points, count), Eigen::MatrixXd (points, count) };

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto [m, parity] = factors.angulars[static_cast<std::size_t> (i)];
        const Eigen::ArrayXd phase = m * samples.angles;

        if (parity == Parity::cosine)
        {
            samples.value.col (i) = phase.cos();
            samples.slope.col (i) = -m * phase.sin();
        }
        else
        {
            samples.value.col (i) = phase.sin();
            samples.slope.col (i) = m * phase.cos();
        }
    }

    return samples;
}

/** left^T diag (weights) right */
Eigen::MatrixXd weighted (const Eigen::MatrixXd& left, const Eigen::ArrayXd& weights, const Eigen::MatrixXd& right)
{
    return left.transpose() * weights.matrix().asDiagonal() * right;
}

Quadrature radialRule (const Factors& factors, double low, double high)
{
    double highest = 0.0;

    for (const auto& [m, zero] : factors.radials)
        highest = std::max (highest, zero);

    // Two functions multiplied wave twice as fast as the last zero says; a Gauss rule wants a little more than π points a
    // wavelength.
    return gaussLegendre (24 + static_cast<int> (1.3 * highest * (high - low)), low, high);
}

} // namespace

Eigen::MatrixXd unevenStiffness (const std::vector<BasisFunction>& basis, const std::vector<TensionHarmonic>& harmonics,
                                 double radius)
{
    const auto factors = factorsOf (basis);
    const auto rule = radialRule (factors, 0.0, 1.0);
    const auto radial = sampleRadials (factors, rule);
    const auto points = static_cast<Eigen::Index> (rule.points.size());
    const Eigen::Map<const Eigen::ArrayXd> rho (rule.points.data(), points), weight (rule.weights.data(), points);
    const auto size = static_cast<Eigen::Index> (basis.size());
    Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero (size, size);

    for (const auto& harmonic : harmonics)
    {
        const int p = harmonic.p;
        const auto angular = sampleAngulars (factors, p);

        const auto add = [&] (const TensionHarmonic::Amplitude& amplitude, int power, double along, double around, double shear)
        {
            // With unit radius: T_rr φ_r φ'_r + T_θθ φ_θ φ'_θ / r² + T_rθ (φ_r φ'_θ + φ_θ φ'_r) / r, times r dr dθ.
            const Eigen::ArrayXd field = weight * rho.pow (power);
            const Eigen::MatrixXd radialAlong = weighted (radial.slope, along * field * rho, radial.slope);
            const Eigen::MatrixXd radialAround = weighted (radial.value, around * field / rho, radial.value);
            const Eigen::MatrixXd radialShear = weighted (radial.slope, shear * field, radial.value);

            const double step = units::twoPi / static_cast<double> (angular.angles.size());
            const Eigen::ArrayXd cosine = (p * angular.angles).cos(), sine = (p * angular.angles).sin();
            const Eigen::ArrayXd normal = step * (amplitude.cosine * cosine + amplitude.sine * sine);
            const Eigen::ArrayXd sideways = step * (amplitude.cosine * sine - amplitude.sine * cosine);
            const Eigen::MatrixXd angularAlong = weighted (angular.value, normal, angular.value);
            const Eigen::MatrixXd angularAround = weighted (angular.slope, normal, angular.slope);
            const Eigen::MatrixXd angularShear = weighted (angular.value, sideways, angular.slope);

            for (Eigen::Index i = 0; i < size; ++i)
                for (Eigen::Index j = 0; j <= i; ++j)
                {
                    const auto ri = factors.radialOf[static_cast<std::size_t> (i)];
                    const auto rj = factors.radialOf[static_cast<std::size_t> (j)];
                    const auto ai = factors.angularOf[static_cast<std::size_t> (i)];
                    const auto aj = factors.angularOf[static_cast<std::size_t> (j)];
                    stiffness (i, j) +=
                        radialAlong (ri, rj) * angularAlong (ai, aj) + radialAround (ri, rj) * angularAround (ai, aj) +
                        radialShear (ri, rj) * angularShear (ai, aj) + radialShear (rj, ri) * angularShear (aj, ai);
                }
        };

        if (p > 1)
            add (harmonic.inner, p - 2, 1.0, -1.0, -1.0);

        add (harmonic.outer, p, (2 - p) * (1 + p), (2 + p) * (1 + p), p * (1 + p));
    }

    return Eigen::MatrixXd (stiffness.selfadjointView<Eigen::Lower>()) / (radius * radius);
}

double coveredArea (const MufflingItem& item, double radius) noexcept
{
    return item.shape == MufflingItem::Shape::patch ? 0.25 * units::pi * item.size * item.size
                                                    : units::pi * item.size * (2.0 * radius - item.size);
}

bool isRound (const MufflingItem& item) noexcept
{
    return item.shape == MufflingItem::Shape::ring || item.distance == 0.0;
}

Eigen::MatrixXd meanOver (const std::vector<BasisFunction>& basis, const MufflingItem& item, double radius)
{
    const auto factors = factorsOf (basis);
    const auto size = static_cast<Eigen::Index> (basis.size());
    const double area = coveredArea (item, radius);

    if (isRound (item))
    {
        const bool isRing = item.shape == MufflingItem::Shape::ring;
        const auto rule = isRing ? radialRule (factors, 1.0 - item.size / radius, 1.0)
                                 : radialRule (factors, 0.0, std::min (1.0, 0.5 * item.size / radius));
        const auto points = static_cast<Eigen::Index> (rule.points.size());
        const Eigen::Map<const Eigen::ArrayXd> rho (rule.points.data(), points), weight (rule.weights.data(), points);
        const auto radial = sampleRadials (factors, rule);
        const Eigen::MatrixXd along = weighted (radial.value, weight * rho, radial.value);
        Eigen::MatrixXd mean = Eigen::MatrixXd::Zero (size, size);

        for (Eigen::Index i = 0; i < size; ++i)
            for (Eigen::Index j = 0; j < size; ++j)
            {
                const auto& a = basis[static_cast<std::size_t> (i)];
                const auto& b = basis[static_cast<std::size_t> (j)];

                if (a.m == b.m && a.parity == b.parity)
                    mean (i, j) =
                        (a.m == 0 ? units::twoPi : units::pi) / area *
                        along (factors.radialOf[static_cast<std::size_t> (i)], factors.radialOf[static_cast<std::size_t> (j)]);
            }

        return mean;
    }

    // A patch is small beside the shortest wave of the basis or not much larger: a product rule over its own polar coordinates.
    const auto outwards = gaussLegendre (10, 0.0, 0.5 * item.size);
    constexpr int directions = 24;
    Eigen::MatrixXd values (size, static_cast<Eigen::Index> (outwards.points.size()) * directions);
    Eigen::VectorXd weights (values.cols());
    Eigen::Index column = 0;

    for (std::size_t k = 0; k < outwards.points.size(); ++k)
        for (int d = 0; d < directions; ++d, ++column)
        {
            const double turn = units::twoPi * d / directions;
            const double x = item.distance * std::cos (item.angle) + outwards.points[k] * std::cos (turn);
            const double y = item.distance * std::sin (item.angle) + outwards.points[k] * std::sin (turn);
            weights[column] = outwards.weights[k] * outwards.points[k] * units::twoPi / directions / area;

            for (Eigen::Index i = 0; i < size; ++i)
                values (i, column) = basis[static_cast<std::size_t> (i)].at (std::hypot (x, y), std::atan2 (y, x), radius);
        }

    return values * weights.asDiagonal() * values.transpose();
}

} // namespace modal
