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
    double resistance = 0.0;               ///< N s/m, FilmUnderWire::resistance, of each
    Eigen::VectorXd restForce;             ///< N, at rest
    Eigen::VectorXd restCompression;       ///< m, negative where a wire does not touch the head
    Eigen::VectorXd metric;                ///< m/N a step, diagonal that bounds the coupling from above
    std::vector<Eigen::MatrixXd> mobility; ///< one per class, m/N per step

    int size() const noexcept { return static_cast<int> (stiffness.size()); }
};

/** Needs a bank with wires. */
WireContacts buildWireContacts (const DrumSetup&, const Bank&);

} // namespace engine
