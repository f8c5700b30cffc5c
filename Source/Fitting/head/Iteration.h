#pragma once

#include "Comparison.h"
#include "Fitting/common/Posterior.h"

namespace fitting
{

/** Gauss–Newton on the state of a head. Unknowns are the steps of HeadState's parameters since the start and, behind them, an
    offset of the model for each kind of mode, in cents. */
class HeadIteration
{
public:
    static constexpr int orders = 7;           ///< (0,n) to (6,n)
    static constexpr int offsets = 2 * orders; ///< (m,1), then (m,2)

    /** Before listening, a lug's tension is within this of the mean, one standard deviation: about 30 cents. */
    static constexpr double usualUnevenness = 0.05;

    enum class Lugs
    {
        free,
        held
    };

    /** @param start    where to begin; its lugs are found too unless they are held
        @param patched  which of the taps to use: those with the patch or those without */
    HeadIteration (const HeadFitSetup&, const std::vector<HeardTap>&, bool patched, const HeadState& start, Lugs);

    /** False if it strays to a head or a tension that cannot be: the start was wrong. Goes by the modes (m,1). */
    bool run();

    /** After run(): taps that agree better among one another than was stated are weighed by how they do, so that the sharp ones
       count more; once more from where run() ended. */
    void weighByScatter();

    /** After run(): lugs by the modes (m,2) too, which tell how uneven the head is but, being easily mistaken, nothing about its
       mean; tension and mass stay. */
    void refineLugs();

    /** After run(), 0 to 1: how much of what should be heard was heard, and how much of what was heard belongs to it. */
    double recognised() const;

    /** After run(): by how many standard deviations the taps want a head of another mass than stated: what its mass may be before
        listening and after it, taken together. The fit itself is drawn back towards the mass stated. */
    double massDeviation() const;

    HeadState state;
    Posterior posterior;
    Eigen::VectorXd prior;            ///< standard deviations
    std::vector<Comparison> compared; ///< at the last state
    int expected = 0;                 ///< how many there should have been
    double likely = 0.0;              ///< how many there are, those that fade otherwise counting less
    double explained = 0.0;           ///< share of what the taps hold that lies near modes, mean of the taps
    double misfit = 0.0;              ///< root mean square of what is left, in standard deviations
    double cost = 0.0;                ///< sum of squares of data and priors, outliers tamed; −2 ln of the probability

private:
    void iterate();
    void observe (double window);
    void solveStep();
    double takeStep (double longest); ///< moves the state; returns how far it wanted to go at most

    const HeadFitSetup& setup;
    std::vector<const HeardTap*> taps;
    bool isPatched, usesSecondKind = false;
    Lugs lugs;
    double scatter = 1.0; ///< of the taps, over what was stated
    double squares = 0.0; ///< of what is left of the observations, in standard deviations, outliers tamed
    Eigen::VectorXd travelled;
};

} // namespace fitting
