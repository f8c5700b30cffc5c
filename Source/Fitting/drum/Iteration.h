#pragma once

#include "Fitting/Drum.h"
#include "Fitting/Lines.h"
#include "Fitting/common/Posterior.h"
#include "Model.h"

namespace fitting
{

/** ln of the likelihood of lines under a list of modes. Each line comes from one of the modes, in proportion to their audibility,
   or with a probability of 1/20 from noise. Where modes lie densely a line near one of them adds little.

    @param width  cents, standard deviation of a line about its mode
    @return ln of the ratio to noise alone, each line by its weight */
double evidence (const std::vector<Line>&, const std::vector<ExpectedMode>&, double width);

/** Sum of the lines' weights. */
double weightOf (const std::vector<Line>&);

/** A line and its most probable mode. */
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

    /** False if it leaves the range of possible drums. */
    bool run();

    DrumState state;
    DrumState prior; ///< standard deviations about the start (tensions) and the construction (masses)
    Posterior posterior;
    std::vector<Assignment> assigned; ///< at the last state
    double evidence = 0.0;            ///< at the last state
    double closeness = 0.0;           ///< the same, each line within its own error
    double misfit = 0.0;              ///< root mean square of the residues in standard deviations

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
