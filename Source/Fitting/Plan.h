#pragma once

#include "Head.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "RodResponse.h"

#include <optional>
#include <string_view>
#include <vector>

/** Plans for the rods: what to turn, in which order, and which note to expect after each pass. */
namespace fitting
{

/** The present state of one head. */
struct HeadAsIs
{
    double tension = 0.0;           ///< N/m, mean
    std::vector<double> lugCents{}; ///< each lug over the head's tap note; empty: even or unknown
    std::vector<double> lugErrors{}; ///< cents, one standard deviation of each; empty: exact. Lugs that differ by less count as alike
};

/** A head stands where the last turn left it, unless somebody says otherwise: then either is wrong. Throws modal::InputError on
   `field` if its note now lies more than 25 cents from there, which is two readings apart.
    @param dashes  before the names of what a person gives: "--" for options */
void requireAgreement (double noteNow, const RodObservation& last, modal::ConcertPitch, const std::string& field,
                       const std::string& dashes);

/** A head as its fit found it. */
HeadAsIs headAsIs (const HeadFit&);

/** Input of a plan. */
struct PlanRequest
{
    modal::DrumSpec drum;
    std::optional<HeadAsIs> batter{}, resonant{}; ///< the heads to tune, at least one
    modal::Tuning wanted;
    modal::RodThread thread;
    /** Turns of a rod in one pass at most, 1/32 to 1. Default: a quarter, or up to a half if that saves passes beyond
        mostPasses; then a plan ends after mostPasses, wherever that is. */
    std::optional<double> largestStep{};
    /** Turns by which a rod that is lowered goes below its target before it comes up again, 0 to 1. Default: an eighth, or what
        lowers the tap note by a semitone if that is less, but at least handTurn. */
    std::optional<double> belowTarget{};
    std::vector<RodObservation> observations{};
};

/** The smallest turn that a hand can set; turns are multiples of it. */
inline constexpr double handTurn = 1.0 / 16.0;

/** A test turn of every rod comes first if no turn of this head was observed yet. */
inline constexpr double testTurn = 1.0 / 8.0;

/** Passes after the test turn before one listens and makes a new plan, unless a largest step is asked for. */
inline constexpr int mostPasses = 3;

/** Turns that may be asked for: the largest in one pass, and how far below its target a rod that is let down goes first. */
inline constexpr modal::Range largestStepRange{ 1.0 / 32.0, 1.0, "turn" }, belowTargetRange{ 0.0, 1.0, "turn" };

/** A caution for one head. */
struct PlanCaution
{
    enum class Kind
    {
        nearYield,  ///< the highest tension over the head's yield tension
        rodForce,   ///< the highest force per rod, N
        nearlySlack ///< tension now over the yield tension
    };

    Kind kind = Kind::nearYield;
    double value = 0.0;
};

/** "near_yield": the kind's name in files. */
std::string_view nameOf (PlanCaution::Kind);

/** One pass around a head: every rod once, in tightening order. */
struct Pass
{
    std::vector<int> order;    ///< lugs from 0
    std::vector<double> turns; ///< by lug; positive tightens; multiples of a sixteenth, or of the largest step if that is less
    double tension = 0.0;      ///< N/m, expected after the pass
    double tapNote = 0.0;      ///< Hz, expected after the pass
    double tapNoteError = 0.0; ///< cents, one standard deviation, from the rods' response over all passes so far

    bool isEven() const noexcept; ///< all rods turn by the same
};

/** What may be heard after the test turn, and the turns of every rod that are then left to the target. */
struct AfterTest
{
    double tapNote = 0.0; ///< Hz
    double turnsLeft = 0.0;
};

/** The plan for one head. */
struct HeadPlan
{
    modal::HeadSide side = modal::HeadSide::batter;
    double fromNote = 0.0, toNote = 0.0;       ///< Hz
    double fromTension = 0.0, toTension = 0.0; ///< N/m
    RodResponse response;
    bool isCalibrated = false;
    double forcePerRod = 0.0;              ///< N at the target
    modal::Spread torque{ 0.0, 0.0, 0.0 }; ///< N·m at the target; information only
    std::vector<Pass> passes;              ///< empty: nothing to turn; what is left is less than a hand can set
    bool hasTestTurn = false;              ///< the first pass is a test turn: report what it did and make a new plan
    std::vector<AfterTest> afterTest{};    ///< a row of what may be heard, ascending in tapNote; empty without a test turn
    double turnsLeft = 0.0; ///< mean turns of a rod that are left after the passes, for a typical drum; 0 if they get there
    std::vector<PlanCaution> cautions;
};

struct Plan
{
    std::vector<HeadPlan> heads; ///< in working order
};

/** The tightening order: each lug as far as possible from the one before, then the pair most nearly at right angles to it. For
   any number of lugs; 8 gives 1 5 3 7 2 6 4 8, 6 gives 1 4 2 5 3 6, 5 gives 1 3 5 2 4 (counted from 1 here, from 0 in code).
 */
std::vector<int> tighteningOrder (int lugs);

/** A head that must be lowered comes first and goes below its target, so that both heads are brought up to pitch; otherwise the
   resonant head comes first (common practice, no source). If the mean tension of a head stays, only the rods that are off turn.
   Rounding errors are carried from pass to pass. Throws InputError if the head cannot reach the tuning.
 */
Plan makePlan (const PlanRequest&);

} // namespace fitting
