#pragma once

#include "Bank.h"

#include <Eigen/Core>

namespace engine
{

/** Constants of the wire contacts: stiffness, state at rest, and coupling in one step. One entry per contact in the order of the
   inner loop (quadrant by quadrant, padded). */
struct WireContacts
{
    Eigen::VectorXd stiffness;             ///< N/m
    double resistance = 0.0;               ///< N s/m, filmContactResistance(), of each
    Eigen::VectorXd restForce;             ///< N, at rest
    Eigen::VectorXd restCompression;       ///< m, negative where a wire does not touch the head
    Eigen::VectorXd metric;                ///< m/N a step, diagonal that bounds the coupling from above
    std::vector<Eigen::MatrixXd> mobility; ///< one a class, m/N a step

    int size() const noexcept { return static_cast<int> (stiffness.size()); }
};

/** Local stiffness of the head where a model strand touches it: the deflection that is too narrow for the modes to resolve.

    Under a load of half width ε a membrane with tension T deflects by F/(2πT)·ln(ℓ/ε) within the distance ℓ that the modes cannot
    resolve (the static Green's function of a membrane), so K = 2πT/ln(ℓ/ε), and a finer set of modes needs a stiffer contact.
   Where a model strand stands for n real ones, d apart, each bears a share of 1/n and feels the deflection of the others: the
    logarithm becomes (ln(ℓ/ε) + (n - 1)·ln(ℓ/d))/n, without the last for neighbours further than ℓ. N/m. */
double filmContactStiffness (const modal::DrumModes&, double resonantTension, const modal::WireSpec&, int modelStrands);

/** Radiation of waves too short for the modes, as a resistance in parallel with the spring filmContactStiffness(), N s/m. The
   imaginary part of a membrane's point compliance is 1/4T at any frequency (Hankel's function H0). A resistance R in parallel
   with a spring K has the imaginary compliance ωR/(K² + ω²R²), at most 1/2K, which is less than 1/4T for springs stiffer than 2T,
   as these are (K is 4T to 4.6T). R = K²/4Tω, taken an octave above `highest` Hz where the modes end, gives (1/4T)/(1 + (K/4T)²)
   there: within 1 % of that maximum. */
double filmContactResistance (double stiffness, double tension, double highest) noexcept;

/** Needs a bank with wires. */
WireContacts buildWireContacts (const DrumSetup&, const Bank&);

} // namespace engine
