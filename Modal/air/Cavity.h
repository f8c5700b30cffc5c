#pragma once

#include "Modal/DrumSpec.h"

#include <Eigen/Core>
#include <vector>

/** The air inside the drum, for one order m at a time.

    Across the drum the pressure is a sum of ψ_q = N_q J_m(j'_mq r/a), normalised to ∫ψ² dA = 1 and positive at the rim, with the
   constant as q = 0 when m = 0. Along the drum each ψ_q has plane or evanescent waves. Seen from the heads that is a sum over
   standing waves s,

        force on a head = Σ K ω²/(ω² − ω_qs²) × (−u),   K = ε_s ρc²/L,

    where u is how far the heads squeeze that wave: for a closed drum u = w_b − (−1)^s w_r. One below the cutoff is a mass on a
   spring K that is tuned to ω_qs; the others are mass, summed in closed form, so nothing is cut off. The (0,0) wave is the air
   spring.
*/
namespace modal::cavity
{

/** A standing wave that is kept as a degree of freedom. */
struct StandingWave
{
    int q;                   ///< column of `overlap`
    double angularFrequency; ///< with both ends rigid (or the lower one open), rad/s
    double stiffness;        ///< K, Pa/m
    double lowerSign;        ///< weight of the resonant head's displacement in u; 0 without a resonant head
};

/** One order's cavity. */
struct Order
{
    Eigen::VectorXd zeros;           ///< β_q = j'_mq, or 0 for the constant
    Eigen::MatrixXd overlap;         ///< ∫ φ_n ψ_q dA: one row per basis function, one column per ψ_q
    std::vector<StandingWave> waves; ///< those below the cutoff
    Eigen::VectorXd selfMass;        ///< for each ψ_q, kg/m²: what is not in `waves`, on a head's own motion
    Eigen::VectorXd crossMass;       ///< and between the heads, displacements counted upwards
    Eigen::VectorXd selfSlope;       ///< how these rise with ω², kg/m² per (rad/s)²
    Eigen::VectorXd crossSlope;
    double springStiffness = 0.0; ///< ρc²/L of the air spring, Pa/m; 0 for m > 0 and for an open drum
    double length = 0.0;          ///< m: the depth, and for an open drum its end correction
};

/** @param cutoff  angular frequency below which standing waves are kept as degrees of freedom, rad/s */
Order describe (int m, const Eigen::VectorXd& zeros, const DrumSpec&, double cutoff);

/** How far an open end moves for each ψ_q when the batter head moves by 1, at angular frequency ω. */
Eigen::ArrayXd openEndMotion (const Order&, double angularFrequency, const DrumSpec&);

} // namespace modal::cavity
