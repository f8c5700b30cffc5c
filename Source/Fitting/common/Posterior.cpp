#include "Posterior.h"

#include <Eigen/Cholesky>

namespace fitting
{

Posterior Posterior::of (const Eigen::MatrixXd& jacobian, const Eigen::VectorXd& observed, const Eigen::VectorXd& priorErrors)
{
    Posterior found;
    found.information = jacobian.transpose() * jacobian;
    found.pull = jacobian.transpose() * observed;

    Eigen::MatrixXd whole = found.information;
    whole.diagonal() += priorErrors.cwiseAbs2().cwiseInverse();
    const Eigen::LDLT<Eigen::MatrixXd> solver (whole);
    found.mean = solver.solve (found.pull);
    found.covariance = solver.solve (Eigen::MatrixXd::Identity (whole.rows(), whole.cols()));
    return found;
}

RobustPosterior RobustPosterior::of (const Eigen::MatrixXd& jacobian, const Eigen::VectorXd& observed,
                                     const Eigen::VectorXd& weights, const Eigen::VectorXd& priorErrors,
                                     Eigen::Index observations)
{
    constexpr double outlier = 2.5; // standard deviations
    constexpr int passes = 6;
    RobustPosterior found;
    Eigen::VectorXd weight = weights;

    for (int pass = 0; pass < passes; ++pass)
    {
        found.posterior = Posterior::of (weight.asDiagonal() * jacobian, weight.cwiseProduct (observed), priorErrors);
        const Eigen::ArrayXd left =
            weights.cwiseProduct (observed - jacobian * found.posterior.mean).head (observations).cwiseAbs();
        weight.head (observations) = weights.head (observations).array() * (outlier / left.max (outlier)).sqrt();
        found.squares = (left.min (outlier) * (2.0 * left - left.min (outlier))).sum();
    }

    return found;
}

void Posterior::reduceTo (Eigen::Index first, const Eigen::VectorXd& priorErrors, Eigen::MatrixXd& reducedInformation,
                          Eigen::VectorXd& reducedPull) const
{
    const auto rest = information.rows() - first;
    Eigen::MatrixXd others = information.topLeftCorner (first, first);
    others.diagonal() += priorErrors.head (first).cwiseAbs2().cwiseInverse();
    const Eigen::LDLT<Eigen::MatrixXd> solver (others);
    const Eigen::MatrixXd cross = information.topRightCorner (first, rest);
    reducedInformation = information.bottomRightCorner (rest, rest) - cross.transpose() * solver.solve (cross);
    reducedPull = pull.tail (rest) - cross.transpose() * solver.solve (pull.head (first));
}

} // namespace fitting
