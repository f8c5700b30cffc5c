#pragma once

#include <Eigen/Core>

namespace modal
{

/** Linear least squares with a Gaussian prior on each unknown: rows are observations already divided by their standard deviation.
 */
struct FitPosterior
{
    Eigen::VectorXd mean; ///< of the unknowns
    Eigen::MatrixXd covariance;
    Eigen::MatrixXd information; ///< of the data alone: JᵀJ
    Eigen::VectorXd pull;        ///< Jᵀr of the data alone

    /** @param jacobian, observed  rows divided by the observations' standard deviations
        @param priorErrors         standard deviation of each unknown about 0 */
    static FitPosterior of (const Eigen::MatrixXd& jacobian, const Eigen::VectorXd& observed, const Eigen::VectorXd& priorErrors);

    /** Information and pull on the unknowns from `first` on, what is uncertain about the others taken out. */
    void reduceTo (Eigen::Index first, const Eigen::VectorXd& priorErrors, Eigen::MatrixXd& reducedInformation,
                   Eigen::VectorXd& reducedPull) const;
};

} // namespace modal
