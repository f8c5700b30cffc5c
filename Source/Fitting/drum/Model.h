#pragma once

#include "Modal/modes/OrderProblem.h"

#include <Eigen/Core>

#include <vector>

namespace fitting
{

/** Unknowns of a fit of the finished drum: logarithms of both tensions (N/m) and of both heads' masses over their constructions',
    batter first. */
using DrumState = Eigen::Vector4d;

/** One mode (both partners of a pair as one) and how it depends on the state. */
struct ExpectedMode
{
    modal::Mode mode;
    double audibility = 0.0; ///< likely share of the loudness shortly after a strike anywhere; sum 1
    DrumState gradient;      ///< of ln frequency
};

/** The coupled modes of an even drum with two heads or one. Derivatives come from the eigenproblem, dω² = φᵀ(dK − ω² dM)φ, with
   the air load held constant. */
class DrumModel
{
public:
    /** @param drum     with the masses of the state already in it
        @param highest  Hz, up to where modes are wanted
        @param orders   (0,n) to (orders − 1,n) */
    DrumModel (const modal::DrumSpec& drum, double highest, int orders);

    /** All modes that move the heads at two tensions, ascending in frequency. */
    std::vector<ExpectedMode> modesAt (double batterTension, double resonantTension) const;

private:
    modal::DrumSpec drum;
    double highestFrequency;
    std::vector<modal::OrderProblem> problems;
};

} // namespace fitting
