#pragma once

#include "Fitting/Drum.h"
#include "Fitting/Lines.h"
#include "Fitting/common/Posterior.h"
#include "Model.h"

#include <optional>

namespace fitting
{

/** ln of the likelihood of lines under a list of modes. Each line comes from one of the modes, in proportion to their audibility,
   or with a probability of 1/20 from noise. Where modes lie densely a line near one of them adds little.

    @param width       cents, standard deviation of a line about its mode
    @param decayError  see DrumFitSetup
    @return ln of the ratio to noise alone, each line by its weight */
double evidence (const std::vector<Line>&, const std::vector<ExpectedMode>&, double width, double decayError);

/** ln of the prior probability of an interval between two tap notes in Hz: drums are tuned with the resonant head some 3 to
    4 semitones above the batter, seldom beyond an octave above or a fourth below (common practice, no source). */
double intervalPrior (double batterNote, double resonantNote);

/** Sum of the lines' weights. */
double weightOf (const std::vector<Line>&);

/** A line and its most probable mode. */
struct Assignment
{
    const Line* line = nullptr;
    ExpectedMode mode;
    double share = 0.0; ///< probability that it is that mode
    double cents = 0.0; ///< line over mode
    double error = 0.0; ///< cents, of the line alone
};

/** Gauss–Newton from one start. Setup and lines must outlive it. */
class DrumIteration
{
public:
    DrumIteration (const DrumFitSetup&, const std::vector<Line>&, double batterTension, double resonantTension);

    /** How far from the start it looks for a mode of each line. */
    enum class Reach
    {
        far,   ///< some tens of cents at first, less from pass to pass
        nearby ///< within the error of the model from the first pass on
    };

    /** False if it leaves the range of possible drums. */
    bool run (Reach = Reach::far);

    DrumState state;
    DrumState prior; ///< standard deviations about the start (tensions) and the construction (masses)
    Posterior posterior;
    std::vector<Assignment> assigned; ///< at the last state
    double evidence = 0.0;            ///< at the last state
    double closeness = 0.0;           ///< the same, each line within its own error, with what should be heard and is not
    double misfit = 0.0;              ///< root mean square of the residues in standard deviations
    double tuningPrior = 0.0;         ///< intervalPrior(), at the last state
    double added = 0.0;               ///< evidenceOfAdded(), at the last state

    /** ln of the probability of the lines, of the heads' masses, of their interval, of the tap notes read and of what was
       recorded besides, at the last state. */
    double plausibility() const;

    /** The same times the room that lines and priors leave around it for the tensions (Laplace): ln of what the tuning's
       probability is proportional to. */
    double weight() const;

    /** Of the state, as it is stated: the posterior's, wider if the misfit is large, and because each line is given to the mode
       that it is near, which makes residues look smaller than they are: simulated drums need errors some 5 % larger
       (tests/fitting). */
    Eigen::Matrix4d covariance() const;

    /** The same if `prior` did not hold the tensions near the start. */
    Eigen::Matrix4d freeCovariance() const;

    modal::DrumSpec drumOfState() const;
    const DrumFitSetup& setUp() const noexcept { return *setup; }
    const std::vector<Line>& heard() const noexcept { return *lines; }

private:
    /** A tap note that a person read. */
    struct ReadNote
    {
        modal::Mode mode{};   ///< (1,1) of the head alone
        DrumState gradient{}; ///< of ln frequency
        double cents = 0.0;   ///< read over predicted
        double error = 0.0;   ///< cents, of the reading
    };

    Eigen::Matrix4d asStated (const Eigen::Matrix4d& covariance) const;
    void observe (double width);
    std::optional<Assignment> assignmentOf (const Line&, const std::vector<ExpectedMode>&, double width) const;
    void compareNote (modal::HeadSide, const std::optional<Estimate>& read);
    void solveStep();

    const DrumFitSetup* setup;
    const std::vector<Line>* lines;
    std::vector<ReadNote> notes;
    double interval = 0.0; ///< cents from tap note to tap note, at the last state
    DrumState start;
};

} // namespace fitting
