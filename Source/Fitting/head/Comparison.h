#pragma once

#include "Model.h"
#include "Fitting/common/Losses.h"

namespace fitting
{

/** One kind of mode as one tap gave it, beside what the model says. */
struct Comparison
{
    int m = 0, n = 1;
    bool isPatched = false;
    double frequency = 0.0; ///< predicted, Hz
    double cents = 0.0;     ///< heard over predicted
    double error = 0.0;     ///< cents, by the recording's noise
    double astray =
        0.0; ///< cents, by which it is probably off because it fades otherwise than the mode does; see HeadIteration
    HeardDecay decay;
    Eigen::VectorXd gradient; ///< of the prediction in cents by the parameters of HeadState
};

/** What one tap gave beside a model. */
struct ComparedTap
{
    std::vector<Comparison> comparisons;
    int expected = 0;       ///< groups (m,1) that ought to have been heard; (m,2) may be or not
    double explained = 0.0; ///< share of the partials' level that lies near modes of the model, 0 to 1
};

/** Pairs what was heard at a tap with the groups of a model. Groups that the tap hardly moves, that mix kinds of modes on a bare
   head, or near which nothing was heard are left out.

    @param window  how far a partial may lie from its group, cents */
ComparedTap compareTap (const HeadModel&, const HeardTap&, double window);

} // namespace fitting
