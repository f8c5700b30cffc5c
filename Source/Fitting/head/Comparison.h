#pragma once

#include "Fitting/common/Losses.h"
#include "Model.h"

namespace fitting
{

/** Measurement and prediction of one kind of mode at one tap. */
struct Comparison
{
    int m = 0, n = 1;
    bool isPatched = false;
    double frequency = 0.0; ///< predicted, Hz
    double cents = 0.0;     ///< measured over predicted
    double error = 0.0;     ///< cents, from the recording's noise
    double astray = 0.0;    ///< cents, probable error inferred from a decay unlike that at the other taps; see HeadIteration
    HeardDecay decay;
    Eigen::VectorXd gradient; ///< of the prediction in cents by the parameters of HeadState
};

/** All comparisons at one tap. */
struct ComparedTap
{
    std::vector<Comparison> comparisons;
    int expected = 0;       ///< groups (m,1) that should be audible
    double explained = 0.0; ///< share of the partials' level near modes of the model, 0 to 1
};

/** Assigns the partials of a tap to the groups of a model. Omits groups that the tap hardly excites, groups of different kinds on
   a bare head, and groups without a partial.

    @param window  largest distance of a partial from its group, cents */
ComparedTap compareTap (const HeadFitSetup&, const HeadModel&, const HeardTap&, double window);

} // namespace fitting
