#pragma once

#include "OrderProblem.h"

#include <limits>
#include <vector>

namespace modal
{

/** A mode of one order and its coefficients on the basis of that order. */
struct OrderMode
{
    Mode mode;
    Eigen::VectorXd batter, resonant; ///< `resonant` is zero without a resonant head
};

/** Solves one order: its modes up to a frequency, ascending, of unit modal mass, with the exterior load and the losses at each
   mode's own frequency.

    @param most  ends after so many modes that move the heads; these are the same as without a limit */
std::vector<OrderMode> modesOfOrder (const OrderProblem&, const DrumSpec&, const Tensions&, double highestFrequency,
                                     int most = std::numeric_limits<int>::max());

} // namespace modal
