#pragma once

#include "Bank.h"

#include <Eigen/Core>

namespace engine
{

/** The wires' contacts apart from motion: how stiff they are, how they lie at rest, and how strongly they act on one another in
   one step. One entry a contact, in the order of the inner loop (quadrant by quadrant, padded). */
struct WireContacts
{
    Eigen::VectorXd stiffness;             ///< N/m
    double resistance = 0.0;               ///< N s/m, filmContactResistance(), of each
    Eigen::VectorXd restForce;             ///< N, holds the wires against the head in quiet
    Eigen::VectorXd restCompression;       ///< m, negative where a wire hangs clear of the head
    Eigen::VectorXd metric;                ///< m/N a step, a diagonal no smaller than the coupling
    std::vector<Eigen::MatrixXd> mobility; ///< one a class, m/N a step

    int size() const noexcept { return static_cast<int> (stiffness.size()); }
};

/** How the film gives under one turn of a coil: the bending of the film that is too narrow for the modes to show.

    Around a load of half width ε a membrane under tension T sinks by F/(2πT)·ln(ℓ/ε) within the distance ℓ that the modes cannot
   resolve (the static Green's function of a membrane), so K = 2πT/ln(ℓ/ε), and a finer set of modes needs a stiffer contact. N/m.
 */
double filmContactStiffness (const modal::DrumModes&, double resonantTension, double contactSize);

/** The waves that a film of this stiffness under a contact sends out, shorter than its modes show, as a resistance beside that
    spring, N s/m. The imaginary part of a membrane's point compliance is 1/4T at any frequency (Hankel's function H0). Beside a
    spring K a resistance R has ωR/(K² + ω²R²), which is 1/2K at most and less than 1/4T for all that are stiffer than 2T, as
    these are (K is 4T to 4.6T). R = K²/4Tω, an octave above `highest` Hz, where the modes end, has (1/4T)/(1 + (K/4T)²) there:
    within 1 % of that most. */
double filmContactResistance (double stiffness, double tension, double highest) noexcept;

/** Needs a bank with wires. */
WireContacts buildWireContacts (const DrumSetup&, const Bank&);

} // namespace engine
