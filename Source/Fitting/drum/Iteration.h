#pragma once

#include "Fitting/Drum.h"
#include "Model.h"
#include "Fitting/Lines.h"
#include "Fitting/common/Posterior.h"

namespace fitting
{

/** How probable lines are under a list of modes: each line comes from one of the modes, the more audible the more often, or, one
   in twenty, from nowhere. Where modes lie densely a line near one of them says little, and that weighs itself.

    @param width  cents, by which a line may miss its mode, one standard deviation
    @return ln of the ratio to lines from nowhere, each line by its weight */
double evidence (const std::vector<Line>&, const std::vector<ExpectedMode>&, double width);

/** Sum of the lines' weights. */
double weightOf (const std::vector<Line>&);

/** A line and the mode that it most likely is. */
struct Assignment
{
    const Line* line = nullptr;
    ExpectedMode mode;
    double share = 0.0; ///< probability that it is that mode
    double cents = 0.0; ///< line over mode
    double error = 0.0; ///< cents, of the line and of the model
};

/** Gauss–Newton from one start. Setup and lines must outlive it. */
class DrumIteration
{
public:
    DrumIteration (const DrumFitSetup&, const std::vector<Line>&, double batterTension, double resonantTension);

    /** False if it strays to where no drum is. */
    bool run();

    DrumState state;
    DrumState prior; ///< standard deviations about the start (tensions) and the construction (masses)
    Posterior posterior;
    std::vector<Assignment> assigned; ///< at the last state
    double evidence = 0.0;            ///< at the last state
    double closeness = 0.0;           ///< the same, each line within its own error
    double misfit = 0.0;              ///< root mean square of what is left, in standard deviations

    /** ln of the probability of the lines and of the heads' masses at the last state. */
    double plausibility() const;

    modal::DrumSpec drumOfState() const;

private:
    void observe (double width);
    void solveStep();

    const DrumFitSetup* setup;
    const std::vector<Line>* lines;
    DrumState start;
};

} // namespace fitting
