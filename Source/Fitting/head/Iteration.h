#pragma once

#include "Comparison.h"
#include "Fitting/common/Posterior.h"

namespace fitting
{

/** Gauss–Newton on the state of a head. Unknowns are the changes of HeadState's parameters since the start, followed by numbers
   of unit variance from which the offset in cents of each kind of mode from the model is made (see common/Discrepancy.h). */
class HeadIteration
{
public:
    static constexpr int orders = 7;           ///< (0,n) to (6,n)
    static constexpr int offsets = 2 * orders; ///< (m,1), then (m,2)

    /** Prior standard deviation of a lug's relative tension: about 30 cents. */
    static constexpr double usualUnevenness = 0.05;

    enum class Lugs
    {
        free,
        held
    };

    /** @param start    start values; its lugs are fitted too unless held
        @param patched  which of the taps to use: those with the patch or those without */
    HeadIteration (const HeadFitSetup&, const std::vector<HeardTap>&, bool patched, const HeadState& start, Lugs);

    /** Fits the modes (m,1). False if it leaves the range of possible heads, because the start was wrong. */
    bool run();

    /** After run(): continues with taps weighted by their actual scatter. */
    void weighByScatter();

    /** After run(): refines the lugs alone with the modes (m,2), which are easily mistaken and must not affect the mean. */
    void refineLugs();

    /** After run(), 0 to 1: how much of what should be heard was heard, and how much of what was heard belongs to it. */
    double recognised() const;

    /** After run(): losses of the head over those predicted, see lossRatioOf(). */
    Estimate losses() const;

    /** After run(): by how many standard deviations the taps want a head of another mass than stated: what its mass may be before
        listening and after it, taken together. The fit itself is drawn back towards the mass stated. */
    double massDeviation() const;

    /** After run(), in cents: how far this head's (1,1) lies above the model's, without the room's part of what is heard. The
       error is what the unknowns leave open; theirs comes on top by gradientOfOffset(). */
    Estimate offsetOfTapNote() const;
    Eigen::VectorXd gradientOfOffset() const;

    HeadState state;
    Posterior posterior;
    Eigen::VectorXd prior;            ///< standard deviations
    std::vector<Comparison> compared; ///< at the last state
    int expected = 0;                 ///< number of expected modes
    double likely = 0.0;              ///< number of measured modes, less for those with an unexpected decay
    double explained = 0.0;           ///< share of the partials' level near modes, mean of the taps
    double misfit = 0.0;              ///< root mean square of the residues in standard deviations
    double cost = 0.0;                ///< −2 ln of the probability: robust sum of squares of data and priors

private:
    void iterate();
    void observe (double window);
    void solveStep();
    void setOffsets (double losses);
    double later() const;             ///< cents: how far from its mode a partial is looked for, once the state is near
    double takeStep (double longest); ///< moves the state; returns the largest component of the unlimited step

    const HeadFitSetup& setup;
    std::vector<const HeardTap*> taps;
    bool isPatched, usesSecondKind = false;
    Lugs lugs;
    double scatter = 1.0;         ///< of the taps over the stated one
    Eigen::MatrixXd offsetRoot;   ///< cents of each kind's offset per unknown of unit variance
    Eigen::VectorXd noteByOffset; ///< cents of the (1,1)'s own part of its offset per unknown
    double noteApart = 0.0;       ///< cents, standard deviation that those unknowns leave it
    double squares = 0.0;         ///< robust sum of squared residues in standard deviations
    Eigen::VectorXd travelled;
};

} // namespace fitting
