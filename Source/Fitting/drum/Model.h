#pragma once

#include "Modal/modes/OrderProblem.h"

#include <Eigen/Core>

#include <vector>

namespace fitting
{

/** What a fit of the finished drum moves: logarithms of both tensions (N/m) and of both heads' masses over their constructions',
    batter first. */
using DrumState = Eigen::Vector4d;

/** One mode (both partners of a pair as one) and how it depends on the state. */
struct ExpectedMode
{
    modal::Mode mode;
    double audibility = 0.0; ///< how loud it is likely to be a moment after a strike anywhere, among the modes of the drum; sum 1
    DrumState gradient;      ///< of ln frequency
};

/** The coupled modes of a whole, even drum, or of a drum with one head, which nothing of the resonant one moves. The derivatives
   are the eigenproblem's own, dω² = φᵀ(dK − ω² dM)φ; what the air's load does with frequency is held still in them. */
class DrumModel
{
public:
    /** @param drum     with the masses of the state already in it
        @param highest  Hz, up to where modes are wanted
        @param orders   (0,n) to (orders − 1,n) */
    DrumModel (const modal::DrumSpec& drum, double highest, int orders);

    /** All modes that move the heads at two tensions, ascending in frequency. */
    std::vector<ExpectedMode> modesAt (double batterTension, double resonantTension);

private:
    modal::DrumSpec drum;
    double highestFrequency;
    modal::Tensions tensions;
    std::vector<modal::OrderProblem> problems;
};

} // namespace fitting
