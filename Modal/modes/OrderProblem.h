#pragma once

#include "Modal/Solve.h"
#include "Modal/air/Cavity.h"
#include "Modal/air/Exterior.h"

namespace modal
{

/** The generalized symmetric eigenproblem K q = ω² M q of one order m of a drum, for any tension of its heads: only the diagonal
   of K depends on it.

    q holds, in this order: the batter's coefficients on the basis, the resonant head's (if there is one), the standing waves of
   the cavity and the plug of air in the vent (m = 0 only). Coefficients are displacements in m·m (the basis is in 1/m), so K is
   in N/m and M in kg per m².
*/
struct OrderProblem
{
    int m = 0;
    Eigen::VectorXd zeros; ///< j_mn of the basis functions of each head
    bool hasResonant = false;
    Eigen::MatrixXd airStiffness, mass; ///< K of heads without tension, and M
    Eigen::VectorXd stretch;            ///< (j_mn/a)²: K gains tension × this on a head's diagonal

    // Parts that the losses, the shares and the correction for frequency need again.
    Eigen::MatrixXd batterFilm, resonantFilm;   ///< areal mass of each head's film, dot and ring included, kg/m²
    Eigen::MatrixXd batterExtra, resonantExtra; ///< that of dot and ring alone
    Eigen::MatrixXd massSlope;                  ///< of the cavity's static waves with ω², over the heads' coefficients
    exterior::Mass outside;
    exterior::MassChange outsideChange;
    cavity::Order inside;

    Eigen::MatrixXd stiffness (const Tensions&) const;

    Eigen::Index functions() const noexcept { return zeros.size(); }
    Eigen::Index firstWave() const noexcept { return functions() * (hasResonant ? 2 : 1); }
    Eigen::Index ventIndex() const noexcept { return firstWave() + static_cast<Eigen::Index> (inside.waves.size()); }
    bool hasVent() const noexcept { return ventIndex() < mass.rows(); }
};

/** Sets up one order.

    @param functions      basis functions a head
    @param waveCutoff     Hz; cavity waves below are degrees of freedom
*/
OrderProblem makeOrderProblem (int m, int functions, const DrumSpec&, double waveCutoff);

/** Areal mass of dot and ring on the basis, kg/m²; exact. */
Eigen::MatrixXd extraMassMatrix (int m, const Eigen::VectorXd& zeros, const HeadConstruction&, double radius);

} // namespace modal
