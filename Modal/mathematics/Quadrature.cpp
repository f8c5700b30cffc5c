#include "Quadrature.h"

#include <Eigen/Eigenvalues>

#include <cmath>

namespace modal
{

Quadrature gaussLegendre (int order, double low, double high)
{
    // Golub & Welsch 1969: points are the eigenvalues of the Jacobi matrix, weights the squared first components.
    Eigen::VectorXd beside (order - 1);

    for (int k = 1; k < order; ++k)
        beside[k - 1] = k / std::sqrt (4.0 * k * k - 1.0);

    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
    solver.computeFromTridiagonal (Eigen::VectorXd::Zero (order), beside);

    Quadrature rule;
    const double half = 0.5 * (high - low), middle = 0.5 * (high + low);

    for (int i = 0; i < order; ++i)
    {
        const double first = solver.eigenvectors() (0, i);
        rule.points.push_back (middle + half * solver.eigenvalues()[i]);
        rule.weights.push_back (2.0 * half * first * first);
    }

    return rule;
}

Quadrature compositeGaussLegendre (int order, int pieces, double low, double high)
{
    const auto unit = gaussLegendre (order, 0.0, 1.0);
    Quadrature rule;
    rule.points.reserve (unit.points.size() * static_cast<std::size_t> (pieces));
    rule.weights.reserve (rule.points.capacity());
    const double width = (high - low) / pieces;

    for (int p = 0; p < pieces; ++p)
        for (std::size_t i = 0; i < unit.points.size(); ++i)
        {
            rule.points.push_back (low + width * (p + unit.points[i]));
            rule.weights.push_back (width * unit.weights[i]);
        }

    return rule;
}

} // namespace modal
