#include "FullSolve.h"

#include "BesselZero.h"
#include "GaussRule.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>
#include <boost/math/special_functions/binomial.hpp>
#include <cmath>
#include <complex>

namespace reference
{
namespace
{

constexpr double pi = boost::math::constants::pi<double>();

using Complex = std::complex<double>;

/** J_m(x + iy) for small y, by Taylor's series in y; the derivatives are 2^-p Σ (−1)^j C(p,j) J_{m−p+2j}(x). */
Complex besselNearRealAxis (int m, Complex z)
{
    const double x = z.real(), y = z.imag();
    Complex sum = boost::math::cyl_bessel_j (m, x), power = 1.0;
    double size = 1.0;
    for (int p = 1; p <= 12; ++p)
    {
        power *= Complex (0.0, y) / static_cast<double> (p);
        size *= std::abs (y) / p;
        if (size < 1.0e-12)
            break;
        double derivative = 0.0;
        for (int j = 0; j <= p; ++j)
        {
            const double term = boost::math::binomial_coefficient<double> (static_cast<unsigned> (p), static_cast<unsigned> (j)) *
                                boost::math::cyl_bessel_j (m - p + 2 * j, x);
            derivative += j % 2 == 0 ? term : -term;
        }
        sum += power * std::ldexp (derivative, -p);
    }
    return sum;
}

/** Hankel transforms of the radial functions J_m(jr/a), normalised so that ∫R² r dr = 1. */
class Transforms
{
public:
    Transforms (int m, int functions, double radius) : order (m), a (radius), zeros (zerosOfJ (m, functions))
    {
        for (const double zero : zeros)
            slopes.push_back (boost::math::cyl_bessel_j_prime (m, zero));
    }

    Eigen::VectorXcd at (Complex kappa) const
    {
        const Complex x = kappa * a, bessel = besselNearRealAxis (order, x);
        Eigen::VectorXcd result (static_cast<Eigen::Index> (zeros.size()));
        for (std::size_t n = 0; n < zeros.size(); ++n)
        {
            const Complex gap = x * x - zeros[n] * zeros[n];
            const Complex integral =
                std::abs (gap) < 1.0e-7 ? Complex (0.5 * slopes[n] * slopes[n]) : zeros[n] * slopes[n] * bessel / gap;
            result (static_cast<Eigen::Index> (n)) = a * integral * std::sqrt (2.0) / std::abs (slopes[n]);
        }
        return result;
    }

private:
    int order;
    double a;
    std::vector<double> zeros, slopes;
};

/** With κ² = k² + s² the mass integral loses its singularity: ∫ W W' ds. It continues to complex k as it stands. */
Eigen::MatrixXcd massOf (const Transforms& transforms, int functions, double a, double rho, Complex k)
{
    static const Rule rule = gaussRule (60, 0.0, 150.0); // s·a; the integrand falls as s^-5
    Eigen::MatrixXcd mass = Eigen::MatrixXcd::Zero (functions, functions);
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
        const double s = rule.points[i] / a;
        const Eigen::VectorXcd w = transforms.at (std::sqrt (k * k + s * s));
        mass += rho * rule.weights[i] / a * w * w.transpose();
    }
    return mass;
}

/** With κ = k sin t the resistance is ρω k ∫ W W' sin t dt over a quarter turn; that too continues. */
Eigen::MatrixXcd resistanceOf (const Transforms& transforms, int functions, double rho, Complex omega, Complex k)
{
    static const Rule rule = gaussRule (4, 0.0, 0.5 * pi);
    Eigen::MatrixXcd resistance = Eigen::MatrixXcd::Zero (functions, functions);
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
        const double sine = std::sin (rule.points[i]);
        const Eigen::VectorXcd w = transforms.at (k * sine);
        resistance += rho * omega * k * sine * rule.weights[i] * w * w.transpose();
    }
    return resistance;
}

class Order
{
public:
    Order (const FullDrum& d, int order)
        : drum (d), m (order), transforms (order, d.functions, d.radius), zeros (zerosOfJ (order, d.functions))
    {
        cavityZeros = zerosOfJPrime (m, drum.cavityFunctions);
        if (m == 0)
            cavityZeros.insert (cavityZeros.begin(), 0.0);
        findOverlaps();
    }

    Eigen::Index size() const { return drum.functions * (drum.hasResonantHead ? 2 : 1); }

    /** D(ω) with the radiation resistance taken times `resistance`; time goes as e^{iωt}. */
    Eigen::MatrixXcd stiffnessAt (Complex omega, double resistance) const
    {
        const Eigen::Index n = drum.functions;
        const Complex k = omega / drum.soundSpeed;
        Eigen::MatrixXcd d = Eigen::MatrixXcd::Zero (size(), size());

        const auto addHead = [&] (Eigen::Index at, double density, double tension)
        {
            for (Eigen::Index i = 0; i < n; ++i)
                d (at + i, at + i) +=
                    tension * std::pow (zeros[static_cast<std::size_t> (i)] / drum.radius, 2) - omega * omega * density;
        };
        addHead (0, drum.batterDensity, drum.batterTension);
        if (drum.hasResonantHead)
            addHead (n, drum.resonantDensity, drum.resonantTension);

        if (drum.stillExterior)
            d -= omega * omega * drum.stillExterior->cast<Complex>();
        else
        {
            Eigen::MatrixXcd load = -omega * omega * massOf (transforms, drum.functions, drum.radius, drum.airDensity, k);
            if (resistance > 0.0)
                load += Complex (0.0, resistance) * omega * resistanceOf (transforms, drum.functions, drum.airDensity, omega, k);
            for (Eigen::Index at = 0; at < size(); at += n)
                d.block (at, at, n, n) += load;
        }
        addCavity (d, omega);
        return d;
    }

    /** Modes below ω. */
    int countBelow (double omega) const
    {
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver (stiffnessAt (omega, 0.0).real(), Eigen::EigenvaluesOnly);
        return static_cast<int> ((solver.eigenvalues().array() < 0.0).count()) + cavityResonancesBelow (omega);
    }

private:
    void findOverlaps()
    {
        const Rule rule = gaussRule (60, 0.0, 1.0); // in radii
        overlaps = Eigen::MatrixXd::Zero (drum.functions, static_cast<Eigen::Index> (cavityZeros.size()));
        Eigen::VectorXd headNorm = Eigen::VectorXd::Zero (drum.functions), cavityNorm = Eigen::VectorXd::Zero (overlaps.cols());
        for (std::size_t i = 0; i < rule.points.size(); ++i)
        {
            const double weight = rule.weights[i] * rule.points[i];
            Eigen::VectorXd head (drum.functions), cavity (overlaps.cols());
            for (Eigen::Index n = 0; n < head.size(); ++n)
                head (n) = boost::math::cyl_bessel_j (m, zeros[static_cast<std::size_t> (n)] * rule.points[i]);
            for (Eigen::Index q = 0; q < cavity.size(); ++q)
                cavity (q) = boost::math::cyl_bessel_j (m, cavityZeros[static_cast<std::size_t> (q)] * rule.points[i]);
            overlaps += weight * head * cavity.transpose();
            headNorm += weight * head.cwiseAbs2();
            cavityNorm += weight * cavity.cwiseAbs2();
        }
        overlaps =
            headNorm.cwiseSqrt().cwiseInverse().asDiagonal() * overlaps * cavityNorm.cwiseSqrt().cwiseInverse().asDiagonal();
    }

    void addCavity (Eigen::MatrixXcd& d, Complex omega) const
    {
        const Eigen::Index n = drum.functions;
        const Complex k = omega / drum.soundSpeed;
        for (Eigen::Index q = 0; q < overlaps.cols(); ++q)
        {
            const double radial = cavityZeros[static_cast<std::size_t> (q)] / drum.radius;
            const Complex kz = std::sqrt (k * k - radial * radial), phase = kz * drum.depth;
            // Force on a head that moves alone, and on the other: ρω²/(k_z tan k_zL) and ρω²/(k_z sin k_zL), both even in k_z.
            // Deep in the evanescent range, where sin and cos overflow, they are those of a half-infinite tube.
            const Complex half (0.0, phase.imag() > 0.0 ? -1.0 : 1.0);
            const bool isDeep = std::abs (phase.imag()) > 300.0;
            const Complex own = isDeep ? half / kz : std::cos (phase) / (kz * std::sin (phase));
            const Complex other = isDeep ? Complex (0.0) : 1.0 / (kz * std::sin (phase));
            const Eigen::MatrixXcd shape =
                drum.airDensity * omega * omega * (overlaps.col (q) * overlaps.col (q).transpose()).cast<Complex>();
            d.topLeftCorner (n, n) += own * shape;
            if (drum.hasResonantHead)
            {
                d.bottomRightCorner (n, n) += own * shape;
                d.topRightCorner (n, n) -= other * shape;
                d.bottomLeftCorner (n, n) -= other * shape;
            }
        }
    }

    /** Resonances of the cavity between heads that are held still: where D has its poles. */
    int cavityResonancesBelow (double omega) const
    {
        int count = 0;
        for (const double zero : cavityZeros)
            for (int p = 0;; ++p)
            {
                const double resonance = drum.soundSpeed * std::hypot (zero / drum.radius, p * pi / drum.depth);
                if (resonance >= omega)
                    break;
                if (resonance > 0.0)
                    ++count;
            }
        return count;
    }

    const FullDrum& drum;
    int m;
    Transforms transforms;
    std::vector<double> zeros, cavityZeros;
    Eigen::MatrixXd overlaps; // head functions × cavity functions
};

/** One Newton step towards a root of the eigenvalue of D that is nearest to zero. */
Complex newtonStep (const Order& order, Complex omega, double resistance)
{
    const Complex step = 1.0e-5 * omega;
    const Eigen::MatrixXcd d = order.stiffnessAt (omega, resistance);
    const Eigen::MatrixXcd slope = (order.stiffnessAt (omega + step, resistance) - d) / step;
    const Eigen::ComplexEigenSolver<Eigen::MatrixXcd> solver (d);
    Eigen::Index nearest = 0;
    solver.eigenvalues().cwiseAbs().minCoeff (&nearest);
    // D is symmetric, not Hermitian: left and right eigenvectors are the same without conjugation.
    const Eigen::VectorXcd q = solver.eigenvectors().col (nearest);
    const Complex norm = (q.transpose() * q).value();
    return -solver.eigenvalues() (nearest) * norm / (q.transpose() * slope * q).value();
}

/** Follows an undamped root while the radiation resistance grows from nothing to all of it. */
Complex dampedRoot (const Order& order, double undamped)
{
    constexpr int stages = 5;
    Complex omega = undamped;
    for (int stage = 1; stage <= stages; ++stage)
        for (int pass = 0; pass < 6; ++pass)
        {
            const Complex step = newtonStep (order, omega, static_cast<double> (stage) / stages);
            omega += step;
            if (std::abs (step) < 1.0e-7 * std::abs (omega))
                break;
        }
    return omega;
}

} // namespace

Eigen::MatrixXd baffledMass (int m, int functions, double radius, double airDensity, double wavenumber)
{
    return massOf (Transforms (m, functions, radius), functions, radius, airDensity, wavenumber).real();
}

std::vector<FullMode> solveFully (const FullDrum& drum, int m, double highestFrequency)
{
    const Order order (drum, m);
    const double top = 2.0 * pi * highestFrequency;
    const int count = order.countBelow (top);

    std::vector<FullMode> modes;
    double root = 2.0 * pi;
    for (int i = 1; i <= count; ++i)
    {
        double low = root, high = top;
        while (high - low > 1.0e-8 * high)
        {
            const double middle = 0.5 * (low + high);
            (order.countBelow (middle) >= i ? high : low) = middle;
        }
        root = high;
        const Complex omega = drum.stillExterior ? Complex (root) : dampedRoot (order, root);
        modes.push_back ({ std::abs (omega) / (2.0 * pi), omega.imag() });
    }
    std::sort (modes.begin(), modes.end(), [] (const FullMode& a, const FullMode& b) { return a.frequency < b.frequency; });
    return modes;
}

} // namespace reference
