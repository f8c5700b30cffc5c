#include "AnisotropicMembrane.h"

#include <Eigen/Dense>

#include <cmath>
#include <numbers>

namespace reference
{

namespace
{

using Real = long double;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;

/** Σ coefficient x^i y^j */
struct Term
{
    Real coefficient;
    int i, j;
};

using Polynomial = std::vector<Term>;

/** ∫ x^i y^j over the unit disc. */
Real discIntegral (int i, int j)
{
    if (i % 2 != 0 || j % 2 != 0)
        return 0;

    const Real around = 2 * std::tgamma (Real (i + 1) / 2) * std::tgamma (Real (j + 1) / 2) / std::tgamma (Real (i + j + 2) / 2);
    return around / (i + j + 2);
}

Real productIntegral (const Polynomial& a, const Polynomial& b)
{
    Real sum = 0;

    for (const auto& s : a)
        for (const auto& t : b)
            sum += s.coefficient * t.coefficient * discIntegral (s.i + t.i, s.j + t.j);

    return sum;
}

Polynomial alongX (const Polynomial& a)
{
    Polynomial slope;

    for (const auto& t : a)
        if (t.i > 0)
            slope.push_back ({ t.coefficient * t.i, t.i - 1, t.j });

    return slope;
}

Polynomial alongY (const Polynomial& a)
{
    Polynomial slope;

    for (const auto& t : a)
        if (t.j > 0)
            slope.push_back ({ t.coefficient * t.j, t.i, t.j - 1 });

    return slope;
}

} // namespace

std::vector<double> anisotropicMembrane (double tensionX, double tensionY, int degree, int count)
{
    std::vector<Polynomial> basis;

    for (int i = 0; i <= degree; ++i)
        for (int j = 0; i + j <= degree; ++j)
            basis.push_back ({ { 1, i, j }, { -1, i + 2, j }, { -1, i, j + 2 } });

    const auto size = static_cast<Eigen::Index> (basis.size());
    Matrix stiffness (size, size), mass (size, size);

    for (Eigen::Index k = 0; k < size; ++k)
        for (Eigen::Index l = 0; l <= k; ++l)
        {
            const auto& a = basis[static_cast<std::size_t> (k)];
            const auto& b = basis[static_cast<std::size_t> (l)];
            mass (k, l) = mass (l, k) = productIntegral (a, b);
            stiffness (k, l) = stiffness (l, k) = Real (tensionX) * productIntegral (alongX (a), alongX (b)) +
                                                  Real (tensionY) * productIntegral (alongY (a), alongY (b));
        }

    const Eigen::GeneralizedSelfAdjointEigenSolver<Matrix> solver (stiffness, mass, Eigen::EigenvaluesOnly | Eigen::Ax_lBx);
    std::vector<double> frequencies;

    for (int k = 0; k < count; ++k)
        frequencies.push_back (static_cast<double> (std::sqrt (solver.eigenvalues()[k])));

    return frequencies;
}

} // namespace reference
