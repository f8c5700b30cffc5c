#pragma once

#include "Modal/DrumSpec.h"

#include <Eigen/Core>

#include <memory>

/** The air outside the drum, for one order m at a time.

    On the normalised basis of DrumModes.h masses come out as areal densities in kg/m². With x = κa, the Hankel transform of basis
   function n is a·Ŵ_n(x), Ŵ_n(x) = √2 j_n J_m(x) / (j_n² − x²).

    - `baffled`: each head in an infinite rigid wall, the Rayleigh integral in wavenumbers: mass ρa ∫₀^∞ Ŵ_n Ŵ_n' ds at x² = s² +
   (ka)² and resistance ωρa ∫ Ŵ_n Ŵ_n' ka sinθ dθ at x = ka sinθ.
    - `freeStanding`: the wall is missing and the pressure at the rim relaxes. For the end of a rigid cylinder the static mass
   lost that way is ργa·v vᵀ to within half a percent, where v_n = ∫ Ŵ_n J_m dx is the baffled potential at the rim; and the heads
   act on each other through the space around the drum. γ and the distances are fitted to a finite-volume solution of the exterior
   Laplace problem, which tests/modal repeats. At high ka a head beams forward and the wall stops mattering: the
      shares below lead from one limit to the other.
*/
namespace modal::exterior
{

/** Static added mass, kg/m². */
struct Mass
{
    Eigen::MatrixXd self;  ///< of a head on its own motion
    Eigen::MatrixXd cross; ///< of one head on the other, both displacements counted outwards; zero when baffled
    Eigen::VectorXd rim;   ///< v_n; zero when baffled
};

Mass staticMass (int m, const Eigen::VectorXd& zeros, const DrumSpec&);

/** What the missing wall still does to radiation at ka: 1 at ka → 0, 0 at ka ≫ 1; always 0 when baffled.

    Levine & Schwinger (1948) give the unflanged pipe's reflection; its radiation resistance over the flanged pipe's, 1 − share/2,
   is 0.50 at ka = 0.65 and 0.55 at ka = 1 by their formula and about 0.8 at 1.5 and 0.95 at 2 (their curve, from memory): 1 / (1
   + (ka/1.35)⁶). */
double radiationShare (Surround, double ka) noexcept;

/** The same for the mass. Their end correction leaves 0.7 of the static difference to the flanged pipe at ka = 0.65 and 0.25 at
   ka = 1: 1 / (1 + (ka/0.78)⁴). */
double massShare (Surround, double ka) noexcept;

/** Change of modal mass from k = 0 to k when a head moves as Σ coefficients·φ. One for an order, used for all of its modes and
   for every tension. May be used from several threads.

    The integrals are computed at Chebyshev points of ka and interpolated (error below 1e-8 of the mass, as that of BesselTable);
    a stretch of ka is tabulated when it is first needed. */
class MassChange
{
public:
    /** No change: a vacuum. */
    MassChange() = default;

    /** @param rim  that of staticMass() */
    MassChange (int m, const Eigen::VectorXd& zeros, const Eigen::VectorXd& rim, const DrumSpec&);

    /** Of one motion, in coefficients² × kg/m²; `k` in 1/m. */
    double of (const Eigen::VectorXd& coefficients, double k) const;

    /** On the basis, kg/m². */
    Eigen::MatrixXd matrix (double k) const;

private:
    struct Table;

    double regained (double ka) const; ///< of rim·rimᵀ, in units of ρa

    Eigen::VectorXd rim;
    double radius = 0.0, density = 0.0;
    Surround surround = Surround::baffled;
    std::shared_ptr<Table> table;
};

/** Resistance of the outward motion of both ends at k [1/m], in motion² × kg/(m² s).

    @param upper, lower  the ends' transforms (Σ coefficients × Ŵ) at the points ka·sines()
*/
double resistance (int m, const Eigen::ArrayXd& upper, const Eigen::ArrayXd& lower, double k, const DrumSpec&);

/** sin θ of the directions at which resistance() samples, θ from 0 (the axis) to a right angle. */
const Eigen::ArrayXd& sines();

/** Ŵ_n(x) of the heads' basis functions: one row per point, one column per function. */
Eigen::MatrixXd headTransforms (int m, const Eigen::VectorXd& zeros, const Eigen::ArrayXd& x);

/** The same for the cavity's functions ψ_q at an open end: √2 x J_m'(x) / ((β_q² − x²) √(1 − m²/β_q²)), β_q = j'_mq or 0. */
Eigen::MatrixXd apertureTransforms (int m, const Eigen::VectorXd& cavityZeros, const Eigen::ArrayXd& x);

} // namespace modal::exterior
