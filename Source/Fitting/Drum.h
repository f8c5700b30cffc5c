#pragma once

#include "Head.h"
#include "Lines.h"
#include "Modal/InputError.h"
#include "Modal/hardware/RodThread.h"
#include "common/Discrepancy.h"

#include <optional>
#include <utility>
#include <vector>

/** Both heads' tensions from strikes of the finished drum. */
namespace fitting
{

/** What may be added to a recording: turns of every rod, mass and diameter of a weight at the centre of the batter head. */
inline constexpr modal::Range turnedRange{ -4.0, 4.0, "turns" }, centreWeightRange{ 1.0e-4, 0.05, "kg" },
    centreWeightSizeRange{ 0.005, 0.1, "m" };

/** Strikes recorded after every rod of one head was turned by the same amount: only that head's modes move, however far they lie
    off the model. */
struct TurnedHead
{
    modal::HeadSide side = modal::HeadSide::batter;
    double turns = 0.25; ///< up, see turnedRange
    modal::RodThread thread{};
    std::vector<Line> lines{};
};

/** Strikes recorded with a small weight at the centre of the batter head: how far it lowers the modes (0,n) shows the head's
 * mass. */
struct WeightedHead
{
    double mass = 2.0e-3; ///< kg, see centreWeightRange
    double size = 0.02;   ///< m, diameter, see centreWeightSizeRange
    std::vector<Line> lines{};
};

/** Prior knowledge of the drum. */
struct DrumFitSetup
{
    modal::DrumSpec drum;
    double massTolerance = 0.03;          ///< standard deviation of each head's mass about its construction's, relative; 0 to 0.2
    double modelError = usualModelError;  ///< cents, standard deviation of a mode about the model's, see modelErrorRange
    double decayError = usualDecayError;  ///< standard deviation of ln (decay heard over decay predicted), see decayErrorRange
    std::vector<double> otherDiameters{}; ///< m, if it is not certain: those the drum may have besides `drum.diameter`
    std::vector<modal::HeadConstruction> otherBatters{}, otherResonants{}; ///< heads that may be on instead of the drum's
    std::optional<TurnedHead> turned{};
    std::optional<WeightedHead> weighted{};
    std::optional<Estimate> batterNote{}, resonantNote{}; ///< Hz: tap notes that a person read, with the reading's error
};

/** A measured partial and the mode assigned to it. */
struct NamedPartial
{
    double frequency = 0.0; ///< Hz, measured
    modal::Mode mode;       ///< as fitted
    double cents = 0.0;     ///< measured over fitted
};

/** The chance that the true tuning is none of those found, however well one explains the strikes: of 120 simulated drums of 30 and
    20 dB (as in CalibrationTest, seeds from 2001) 115 had an answer within three errors of the true tensions. */
inline constexpr double noneOfThese = 0.04;

/** A tuning that explains the strikes, on a drum of that size with those heads. */
struct DrumAnswer
{
    struct Head
    {
        Estimate tension{}; ///< N/m; 0 if the drum has no such head
        Estimate tapNote{}; ///< Hz
        modal::HeadConstruction construction{};
    };

    double diameter = 0.0; ///< m
    Head batter{}, resonant{};
    double probability = 0.0; ///< all answers together have 1 − noneOfThese, less the least probable ones, which are not listed
};

/** The 2.5 and the 97.5 % quantile of a head's tension in N/m over all answers: a mixture of log-normal distributions. */
std::pair<double, double> tensionRange (const std::vector<DrumAnswer>&, modal::HeadSide);

/** The result of a fit to strikes of the whole drum. Each HeadFit has tap note, tension, mass and losses, the latter of both
   heads together, and the even waves of unevenness without their direction (lugWaves). One head alone may be impossible: then the
    strikes do not determine it. */
struct DrumFit
{
    bool isPossible = false; ///< if not, `findings` holds a refusal and nothing else counts
    HeadFit batter, resonant;
    std::vector<DrumAnswer> answers{}; ///< most probable first; `batter` and `resonant` are those of the first
    std::vector<NamedPartial> partials{};
    double misfit = 0.0; ///< root mean square of the residues in standard deviations; near 1 or below is good
    int strikesUsed = 0;
    std::vector<Finding> findings{}; ///< about the drum; those about one head are in its fit
};

/** Least squares on the solver's coupled modes, wires off. Modes of a real drum lie off the model's by tens of cents, so
    a fit is not refused because of cents, but for notes that no tuning explains better than chance. The places of strikes and
   microphones need not be known, because frequencies and decays do not depend on them.

    Other diameters are tried: those that `otherDiameters` names as answers beside the stated one; without any, an inch and two
   more or less, for a warning. Each combination with `otherBatters` and `otherResonants` is an answer too.

    @param lines    the notes that the strikes share, ascending in frequency
    @param strikes  how many there were
    @throws InputError for a setup out of range, a drum without a resonant head or one with muffling on it
*/
DrumFit fitDrum (const DrumFitSetup&, const std::vector<Line>& lines, int strikes);

} // namespace fitting
