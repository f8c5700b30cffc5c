#pragma once

#include "Modal/DrumModes.h"

#include <Eigen/Core>

namespace modal
{

/** What is added to an even, bare drum: matrices on the basis of DrumModes; an empty one adds nothing. */
struct Perturbation
{
    Eigen::MatrixXd batterStiffness, resonantStiffness;   ///< N/m
    Eigen::MatrixXd batterMass, resonantMass;             ///< kg/m²
    Eigen::MatrixXd batterResistance, resonantResistance; ///< N·s/m³

    /** Nothing of it depends on the angle: the matrices couple no functions of different order or parity, and are the same for
        both partners. */
    bool isRound = false;

    bool isEmpty() const noexcept;
};

/** The drum's modes with the addition, by Rayleigh–Ritz on the modes given: shapes, frequencies and losses mix, and pairs split;
    a round addition to a uniform drum mixes within each order alone, and pairs stay.

    @throws InputError where a head is so slack in places that it would fold instead of vibrate */
DrumModes perturbed (const DrumModes&, const Perturbation&);

} // namespace modal
