#include "Exterior.h"

#include "Modal/Units.h"
#include "Modal/mathematics/BesselTable.h"
#include "Modal/mathematics/Quadrature.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
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

/** How far, in radii, a head's acoustic centre stands out from the drum: half of what adds to the depth between the heads, for
   the other head. */
double centreOffset (int m) noexcept
{
    return m == 0 ? 0.8 : 0.5;
}

/** The same for a listener far away, where two heads that move in the same direction are a dipole (m = 0) or a quadrupole. For the
   lowest function of an order, the strongest one in such modes. Fitted to finite volumes, see ExteriorTest.cpp. */
double farCentreOffset (int m) noexcept
{
    return m == 0 ? 0.63 : 0.37;
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

/** Products of transforms integrated over wavenumbers, Σ w Ŵ_n Ŵ_n', for all pairs of an order's functions.

    By partial fractions two sums a function are enough, g_n = Σ w J²/(j_n² − x²) and h_n = Σ w J²/(j_n² − x²)²: the product is
   C_nn' (g_n − g_n') with C_nn' = 2 j_n j_n' / (j_n'² − j_n²), and 2 j_n² h_n for n = n'. */
class TransformProducts
{
public:
    TransformProducts (int order, const Eigen::VectorXd& besselZeros)
        : m (order), squares (besselZeros.array().square()), coupling (besselZeros.size(), besselZeros.size())
    {
        for (Eigen::Index i = 0; i < coupling.rows(); ++i)
            for (Eigen::Index j = 0; j < coupling.cols(); ++j)
                coupling (i, j) = i == j ? 0.0 : 2.0 * besselZeros[i] * besselZeros[j] / (squares[j] - squares[i]);
    }

    Eigen::Index functions() const noexcept { return squares.size(); }

    /** g of all functions, then h. */
    Eigen::VectorXd sums (const Eigen::ArrayXd& x, const Eigen::ArrayXd& weights) const
    {
        const Eigen::ArrayXd x2 = x.square(), strength = weights * besselAt (m, x).square();
        Eigen::VectorXd result (2 * functions());

        for (Eigen::Index n = 0; n < functions(); ++n)
        {
            const Eigen::ArrayXd inverse = (squares[n] - x2).inverse();
            const Eigen::ArrayXd once = strength * inverse;
            result[n] = once.sum();
            result[functions() + n] = (once * inverse).sum();
        }

        return result;
    }

    Eigen::MatrixXd matrix (const Eigen::VectorXd& sums) const
    {
        const Eigen::VectorXd g = sums.head (functions());
        const Eigen::MatrixXd rows = g.replicate (1, functions());
        Eigen::MatrixXd result = coupling.cwiseProduct (rows - rows.transpose());
        result.diagonal() = 2.0 * squares.matrix().cwiseProduct (sums.tail (functions()));
        return result;
    }

    /** cᵀ matrix (sums) c; C is antisymmetric. */
    double of (const Eigen::VectorXd& c, const Eigen::VectorXd& sums) const
    {
        const auto g = sums.head (functions()), h = sums.tail (functions());
        return 2.0 * (c.cwiseProduct (coupling * c).dot (g) + squares.matrix().cwiseProduct (c.cwiseAbs2()).dot (h));
    }

private:
    int m;
    Eigen::ArrayXd squares;   ///< j_n²
    Eigen::MatrixXd coupling; ///< C
};

Mass staticMass (int m, const Eigen::VectorXd& zeros, const DrumSpec& drum)
{
    const auto rule = wavenumbers (zeros);
    const auto x = mapped (rule.points);
    const auto weights = mapped (rule.weights);
    const TransformProducts products (m, zeros);
    const double unit = drum.air.density * drum.radius();

    Mass mass;
    mass.self = unit * products.matrix (products.sums (x, weights));
    mass.cross = Eigen::MatrixXd::Zero (zeros.size(), zeros.size());
    mass.rim = Eigen::VectorXd::Zero (zeros.size());

    if (drum.surround == Surround::freeStanding)
    {
        mass.rim = headTransforms (m, zeros, x).transpose() * (besselAt (m, x) * weights).matrix();
        mass.self -= unit * rimRelaxation (m) * mass.rim * mass.rim.transpose();

        const double distance = drum.depth / drum.radius() + 2.0 * centreOffset (m);
        mass.cross = unit * products.matrix (products.sums (x, 0.5 * weights * (-distance * x).exp()));
    }

    return mass;
}

struct MassChange::Table
{
    static constexpr double width = 4.0; ///< of a stretch of ka: a little more than a period of the integrals

    Table (int order, const Eigen::VectorXd& zeros) : m (order), products (order, zeros)
    {
        // What the load loses with k dies out much faster than the load itself: a shorter and coarser rule does.
        const double end = std::min (zeros[zeros.size() - 1] + 20.0, BesselTable::highestArgument);
        const auto rule = compositeGaussLegendre (6, static_cast<int> (end / 3.5) + 1, 0.0, end);
        squares = mapped (rule.points).square();
        weights = mapped (rule.weights);
        still = products.sums (squares.sqrt(), weights);
    }

    /** The sums at ka less those at rest. */
    Eigen::VectorXd changeAt (double ka) const
    {
        const auto stretch = static_cast<int> (ka / width);
        const auto& samples = samplesOf (stretch);
        const double place = ka / width - stretch;
        Eigen::VectorXd shares (points().size());

        for (Eigen::Index i = 0; i < shares.size(); ++i) // barycentric formula for Chebyshev points of the second kind
        {
            const double distance = place - points()[i];

            if (std::abs (distance) < 1.0e-14)
                return samples.col (i);

            shares[i] = (i % 2 == 0 ? 1.0 : -1.0) * (i == 0 || i + 1 == shares.size() ? 0.5 : 1.0) / distance;
        }

        return samples * (shares / shares.sum());
    }

    int m;
    TransformProducts products;

private:
    /** Sixteen Chebyshev points from 0 to 1. */
    static const Eigen::ArrayXd& points()
    {
        static const Eigen::ArrayXd values = 0.5 - 0.5 * Eigen::ArrayXd::LinSpaced (16, 0.0, units::pi).cos();
        return values;
    }

    /** A column a point. */
    const Eigen::MatrixXd& samplesOf (int stretch) const
    {
        const std::lock_guard lock (mutex);
        auto& samples = stretches[stretch];

        if (samples.size() == 0)
        {
            samples.resize (still.size(), points().size());

            for (Eigen::Index i = 0; i < samples.cols(); ++i)
            {
                const double ka = width * (stretch + points()[i]);
                samples.col (i) = products.sums ((squares + ka * ka).sqrt(), weights) - still;
            }
        }

        return samples;
    }

    Eigen::ArrayXd squares, weights; ///< of the wavenumbers at k = 0, and the rule's weights
    Eigen::VectorXd still;
    mutable std::mutex mutex;
    mutable std::map<int, Eigen::MatrixXd> stretches;
};

MassChange::MassChange (int m, const Eigen::VectorXd& zeros, const Eigen::VectorXd& rimPotential, const DrumSpec& drum)
    : rim (rimPotential), radius (drum.radius()), density (drum.air.density), surround (drum.surround),
      table (std::make_shared<Table> (m, zeros))
{
}

double MassChange::regained (double ka) const
{
    return surround == Surround::baffled ? 0.0 : (1.0 - massShare (surround, ka)) * rimRelaxation (table->m);
}

double MassChange::of (const Eigen::VectorXd& coefficients, double k) const
{
    if (table == nullptr)
        return 0.0;

    const double ka = k * radius;
    return density * radius *
           (table->products.of (coefficients, table->changeAt (ka)) + regained (ka) * std::pow (rim.dot (coefficients), 2));
}

Eigen::MatrixXd MassChange::matrix (double k) const
{
    const double ka = k * radius;
    return density * radius * (table->products.matrix (table->changeAt (ka)) + regained (ka) * rim * rim.transpose());
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
    const double halfDistance = 0.5 * drum.depth / drum.radius() + farCentreOffset (m);
    const Eigen::ArrayXd cosines = (1.0 - sines().square()).sqrt();
    const Eigen::ArrayXd apart = (2.0 * ka * halfDistance * cosines).cos();
    const Eigen::ArrayXd power = (1.0 - 0.5 * share) * (upper.square() + lower.square()) + share * upper * lower * apart;

    return k * drum.air.soundSpeed * drum.air.density * drum.radius() * ka *
           (power * sines() * mapped (directions().weights)).sum();
}

} // namespace modal::exterior
