#pragma once

#include <Eigen/Core>

namespace fitting
{

/** Linear least squares with a Gaussian prior on each unknown.
 */
struct Posterior
{
    Eigen::VectorXd mean; ///< of the unknowns
    Eigen::MatrixXd covariance;
    Eigen::MatrixXd information; ///< of the data alone: JᵀJ
    Eigen::VectorXd pull;        ///< Jᵀr of the data alone

    /** @param jacobian, observed  rows divided by the observations' standard deviations
        @param priorErrors         standard deviation of each unknown about 0 */
    static Posterior of (const Eigen::MatrixXd& jacobian, const Eigen::VectorXd& observed, const Eigen::VectorXd& priorErrors);

    /** Information and pull on the unknowns from `first` on, marginalised over the others. */
    void reduceTo (Eigen::Index first, const Eigen::VectorXd& priorErrors, Eigen::MatrixXd& reducedInformation,
                   Eigen::VectorXd& reducedPull) const;
};

/** The same with Huber's loss: linear beyond 2.5 standard deviations. */
struct RobustPosterior
{
    Posterior posterior;
    double squares = 0.0; ///< sum of squared residues in standard deviations, with Huber's loss

    /** @param jacobian, observed  as they are
        @param weights             the inverse of each row's standard deviation
        @param observations        number of rows that are observations; the rows after them are constraints, never outliers */
    static RobustPosterior of (const Eigen::MatrixXd& jacobian, const Eigen::VectorXd& observed, const Eigen::VectorXd& weights,
                               const Eigen::VectorXd& priorErrors, Eigen::Index observations);
};

} // namespace fitting
