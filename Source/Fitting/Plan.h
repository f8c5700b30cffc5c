#pragma once

#include "RodResponse.h"
#include "Modal/Tuning.h"

#include <optional>
#include <string_view>
#include <vector>

/** From a drum as it is to the tuning wanted: what to turn, in which order, and what to expect on the way. */
namespace fitting
{

/** One head as it is. */
struct HeadAsIs
{
    double tension = 0.0;           ///< N/m, mean
    std::vector<double> lugCents{}; ///< each lug over the head's tap note; empty: even, or not known
};

/** What a plan is made from. */
struct PlanRequest
{
    modal::DrumSpec drum;
    std::optional<HeadAsIs> batter{}, resonant{}; ///< those that are to be tuned, one at least; the other stays as it is
    modal::Tuning wanted;
    modal::RodThread thread;
    double largestStep = 0.25; ///< turn, the most that a rod moves in one pass, 1/32 to 1
    /** Turn, how far a rod that comes down goes below its target before it comes up again, 0 to 1. If not given an eighth, or
        what a semitone of the head's note takes if that is less, though never less than a hand can set. */
    std::optional<double> belowTarget{};
    std::vector<RodObservation> observations{};
};

/** What a hand can set: turns are multiples of it. */
inline constexpr double handTurn = 1.0 / 16.0;

/** What to mind while a head is tuned. */
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

/** One pass round a head: every rod once, in the order given. */
struct Pass
{
    std::vector<int> order;    ///< lugs from 0
    std::vector<double> turns; ///< by lug; positive tightens; multiples of a sixteenth, or of the largest step if that is less
    double tension = 0.0;      ///< N/m, expected after the pass
    double tapNote = 0.0;      ///< Hz, expected after the pass
    double tapNoteError = 0.0; ///< cents, one standard deviation of what the rods may do since the start

    bool isEven() const noexcept; ///< true if all rods turn alike
};

/** What happens to one head. */
struct HeadPlan
{
    modal::HeadSide side = modal::HeadSide::batter;
    double fromNote = 0.0, toNote = 0.0;       ///< Hz
    double fromTension = 0.0, toTension = 0.0; ///< N/m
    RodResponse response;
    bool isCalibrated = false;
    double forcePerRod = 0.0;          ///< N at the target
    modal::Spread torque{ 0.0, 0.0, 0.0 };    ///< N·m at the target; information only
    std::vector<Pass> passes;          ///< empty: nothing that a hand can set; the rest, a thirty-second a rod, is by ear
    std::vector<PlanCaution> cautions;
};

struct Plan
{
    std::vector<HeadPlan> heads; ///< in the order in which to work
};

/** The tightening order: each lug as far as can be from the one before, then the pair most nearly at right angles to it. For any
   number of lugs; 8 gives 1 5 3 7 2 6 4 8, 6 gives 1 4 2 5 3 6, 5 gives 1 3 5 2 4 (counted from 1 here, from 0 in code).
 */
std::vector<int> tighteningOrder (int lugs);

/** A head that has to come down comes first and is taken below its target, so that both come up to pitch from below; otherwise
   the resonant head comes first (common practice, no source). Where a head's mean stays, only the rods that are off are turned.
   What rounding to sixteenths leaves is carried from pass to pass. Throws InputError if the wanted tuning is out of the film's
   reach.
 */
Plan makePlan (const PlanRequest&);

} // namespace fitting
