#include "FullSolve.h"

#include "BesselZero.h"
#include "GaussRule.h"

#include <Eigen/Eigenvalues>
#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>
#include <cmath>

namespace reference
{
namespace
{

constexpr double pi = boost::math::constants::pi<double>();

/** Hankel transforms of the radial functions J_m(jr/a), normalised so that ∫R² r dr = 1. */
class Transforms
{
public:
    Transforms (int m, int functions, double radius) : order (m), a (radius), zeros (zerosOfJ (m, functions))
    {
        for (const double zero : zeros)
            slopes.push_back (boost::math::cyl_bessel_j_prime (m, zero));
    }

    Eigen::VectorXd at (double kappa) const
    {
        const double x = kappa * a, bessel = boost::math::cyl_bessel_j (order, x);
        Eigen::VectorXd result (static_cast<Eigen::Index> (zeros.size()));
        for (std::size_t n = 0; n < zeros.size(); ++n)
        {
            const double gap = x * x - zeros[n] * zeros[n];
            const double integral = std::abs (gap) < 1.0e-7 ? 0.5 * slopes[n] * slopes[n] : zeros[n] * slopes[n] * bessel / gap;
            result (static_cast<Eigen::Index> (n)) = a * integral * std::sqrt (2.0) / std::abs (slopes[n]);
        }
        return result;
    }

private:
    int order;
    double a;
    std::vector<double> zeros, slopes;
};

/** With κ² = k² + s² the mass integral loses its singularity: ∫ W W' ds. */
Eigen::MatrixXd massOf (const Transforms& transforms, int functions, double a, double rho, double k)
{
    static const Rule rule = gaussRule (60, 0.0, 150.0); // s·a; the integrand falls as s^-5
    Eigen::MatrixXd mass = Eigen::MatrixXd::Zero (functions, functions);
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
        const Eigen::VectorXd w = transforms.at (std::hypot (k, rule.points[i] / a));
        mass += rho * rule.weights[i] / a * w * w.transpose();
    }
    return mass;
}

/** With κ = k sin t the resistance is ρω k ∫ W W' sin t dt over a quarter turn. */
Eigen::MatrixXd resistanceOf (const Transforms& transforms, int functions, double rho, double omega, double k)
{
    static const Rule rule = gaussRule (4, 0.0, 0.5 * pi);
    Eigen::MatrixXd resistance = Eigen::MatrixXd::Zero (functions, functions);
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
        const double sine = std::sin (rule.points[i]);
        const Eigen::VectorXd w = transforms.at (k * sine);
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

    Eigen::MatrixXd stiffnessAt (double omega) const
    {
        const Eigen::Index n = drum.functions;
        const double k = omega / drum.soundSpeed;
        Eigen::MatrixXd d = Eigen::MatrixXd::Zero (size(), size());

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
            d -= omega * omega * *drum.stillExterior;
        else
        {
            const Eigen::MatrixXd mass = massOf (transforms, drum.functions, drum.radius, drum.airDensity, k);
            for (Eigen::Index at = 0; at < size(); at += n)
                d.block (at, at, n, n) -= omega * omega * mass;
        }
        addCavity (d, omega);
        return d;
    }

    Eigen::MatrixXd resistanceAt (double omega) const
    {
        const Eigen::Index n = drum.functions;
        Eigen::MatrixXd whole = Eigen::MatrixXd::Zero (size(), size());
        if (drum.stillExterior)
            return whole;
        const auto one = resistanceOf (transforms, drum.functions, drum.airDensity, omega, omega / drum.soundSpeed);
        for (Eigen::Index at = 0; at < size(); at += n)
            whole.block (at, at, n, n) = one;
        return whole;
    }

    /** Modes below ω. */
    int countBelow (double omega) const
    {
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver (stiffnessAt (omega), Eigen::EigenvaluesOnly);
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

    void addCavity (Eigen::MatrixXd& d, double omega) const
    {
        const Eigen::Index n = drum.functions;
        const double k = omega / drum.soundSpeed, depth = drum.depth;
        for (Eigen::Index q = 0; q < overlaps.cols(); ++q)
        {
            const double radial = cavityZeros[static_cast<std::size_t> (q)] / drum.radius;
            const double square = k * k - radial * radial;
            const double kz = std::sqrt (std::abs (square));
            // Force on a head that moves alone, and on the other: ρω²/(k_z tan k_zL) and ρω²/(k_z sin k_zL), or their hyperbolic
            // twins.
            const double own = square > 0.0 ? 1.0 / (kz * std::tan (kz * depth)) : -1.0 / (kz * std::tanh (kz * depth));
            const double other = square > 0.0 ? 1.0 / (kz * std::sin (kz * depth)) : -1.0 / (kz * std::sinh (kz * depth));
            const Eigen::MatrixXd shape = drum.airDensity * omega * omega * overlaps.col (q) * overlaps.col (q).transpose();
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

double radiationDecay (const Order& order, double omega)
{
    const double step = 1.0e-4 * omega;
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver (order.stiffnessAt (omega));
    Eigen::Index nearest = 0;
    solver.eigenvalues().cwiseAbs().minCoeff (&nearest);
    const Eigen::VectorXd q = solver.eigenvectors().col (nearest);
    const Eigen::MatrixXd slope = (order.stiffnessAt (omega + step) - order.stiffnessAt (omega - step)) / (2.0 * step);
    return omega * q.dot (order.resistanceAt (omega) * q) / -q.dot (slope * q);
}

} // namespace

Eigen::MatrixXd baffledMass (int m, int functions, double radius, double airDensity, double wavenumber)
{
    return massOf (Transforms (m, functions, radius), functions, radius, airDensity, wavenumber);
}

std::vector<FullMode> solveFully (const FullDrum& drum, int m, double highestFrequency)
{
    const Order order (drum, m);
    const double top = 2.0 * pi * highestFrequency;
    const int count = order.countBelow (top);

    std::vector<FullMode> modes;
    for (int i = 1; i <= count; ++i)
    {
        double low = modes.empty() ? 2.0 * pi : 2.0 * pi * modes.back().frequency, high = top;
        while (high - low > 1.0e-8 * high)
        {
            const double middle = 0.5 * (low + high);
            (order.countBelow (middle) >= i ? high : low) = middle;
        }
        modes.push_back ({ high / (2.0 * pi), radiationDecay (order, high) });
    }
    return modes;
}

} // namespace reference
