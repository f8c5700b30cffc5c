#pragma once

#include "DrumModes.h"

#include <Eigen/Core>

namespace modal
{

/** What is added to an even, bare drum: matrices on the basis of DrumModes; an empty one adds nothing. */
struct Perturbation
{
    Eigen::MatrixXd batterStiffness, resonantStiffness;   ///< N/m
    Eigen::MatrixXd batterMass, resonantMass;             ///< kg/m²
    Eigen::MatrixXd batterResistance, resonantResistance; ///< N·s/m³

    bool isEmpty() const noexcept;
};

/** The drum's modes with the addition, by Rayleigh–Ritz on the modes given: shapes, frequencies and losses mix, and pairs split.
 */
DrumModes perturbed (const DrumModes&, const Perturbation&);

} // namespace modal
