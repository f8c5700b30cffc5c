#include "Fitting/Plan.h"

#include "Modal/DrumNumbers.h"
#include "Modal/PrudentLimits.h"
#include "Modal/Units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace fitting
{
namespace
{

int circularDistance (int a, int b, int around)
{
    const int d = std::abs (a - b) % around;
    return std::min (d, around - d);
}

/** Relative tension beside each lug from cents over the head's note, with the mean removed. */
std::vector<double> deviations (const std::vector<double>& cents, double semitone, int lugs)
{
    std::vector<double> shares (static_cast<std::size_t> (lugs), 0.0);

    for (std::size_t k = 0; k < cents.size(); ++k)
        shares[k] = std::pow (1.0 + semitone, cents[k] / 100.0) - 1.0;

    const double mean = std::accumulate (shares.begin(), shares.end(), 0.0) / lugs;

    for (auto& share : shares)
        share -= mean;

    return shares;
}

/** Cents with lugs alike where they differ by less than their errors can tell: from the lowest up, each group has its mean. */
std::vector<double> distinctCents (const HeadAsIs& head)
{
    if (head.lugErrors.empty())
        return head.lugCents;

    auto cents = head.lugCents;
    std::vector<std::size_t> order (cents.size());
    std::iota (order.begin(), order.end(), std::size_t{ 0 });
    std::sort (order.begin(), order.end(), [&] (std::size_t a, std::size_t b) { return cents[a] < cents[b]; });

    for (std::size_t first = 0; first < order.size();)
    {
        auto last = first;
        double sum = 0.0;

        for (; last < order.size(); ++last)
        {
            const double apart = head.lugCents[order[last]] - head.lugCents[order[first]];

            if (last > first && apart > std::hypot (head.lugErrors[order[last]], head.lugErrors[order[first]]))
                break;

            sum += head.lugCents[order[last]];
        }

        for (auto i = first; i < last; ++i)
            cents[order[i]] = sum / static_cast<double> (last - first);

        first = last;
    }

    return cents;
}

double largestOf (const std::vector<double>& turns)
{
    double largest = 0.0;

    for (const double t : turns)
        largest = std::max (largest, std::abs (t));

    return largest;
}

/** The largest step asked for, or a quarter turn, or up to a half if a move takes fewer passes by it. */
double stepFor (const std::vector<double>& turns, const PlanRequest& request)
{
    constexpr double usual = 0.25, longest = 0.5;

    if (request.largestStep)
        return *request.largestStep;

    return std::clamp (handTurn * std::ceil (largestOf (turns) / mostPasses / handTurn - 1.0e-9), usual, longest);
}

/** The test turn that all rods can make on the way to their `turns`: none where some stay or go the other way. */
double testTurnFor (const std::vector<double>& turns, const PlanRequest& request)
{
    const auto [least, most] = std::minmax_element (turns.begin(), turns.end());

    if (*least * *most <= 0.0)
        return 0.0;

    const double shortest = std::min (std::abs (*least), std::abs (*most));
    const double turn = std::min ({ testTurn, shortest, request.largestStep.value_or (testTurn) });
    return std::copysign (handTurn * std::floor (turn / handTurn + 1.0e-9), *least);
}

/** Adds passes that add up to `turns`, none larger than the largest step, rounded to what a hand can set. */
void addPasses (HeadPlan& plan, const std::vector<double>& turns, const PlanRequest& request)
{
    const double largestStep = stepFor (turns, request);
    const double grain = std::min (handTurn, largestStep);
    const double step = grain * std::floor (largestStep / grain + 1.0e-9);
    const double largest = largestOf (turns);

    const int count = static_cast<int> (std::ceil (largest / step - 1.0e-9));
    const auto order = tighteningOrder (request.drum.lugs);
    // Whole steps, and the rest in the last pass.
    const auto shareAfter = [&] (int passes) { return std::min (1.0, passes * step / largest); };

    for (int i = 0; i < count; ++i)
    {
        Pass pass{ .order = order, .turns = turns };

        // The total so far is rounded, not each pass, so that rounding errors do not add up.
        for (auto& t : pass.turns)
            t = grain * (std::round (t * shareAfter (i + 1) / grain) - std::round (t * shareAfter (i) / grain));

        if (std::any_of (pass.turns.begin(), pass.turns.end(), [] (double t) { return t != 0.0; }))
            plan.passes.push_back (pass);
    }
}

/** Turns by which a lowered rod goes below its target. */
double turnsBelow (const HeadPlan& plan, const PlanRequest& request, const modal::HeadConstruction& head)
{
    if (request.belowTarget)
        return *request.belowTarget;

    constexpr double usual = 0.125;
    const double semitone = modal::semitoneTension (request.drum, plan.side, plan.toTension);
    const double fall = plan.toTension * semitone / (1.0 + semitone);
    const double ofSemitone = fall / plan.response.tensionPerTurn (head, request.drum.radius(), request.thread);
    return std::max (handTurn, std::min (usual, handTurn * std::floor (ofSemitone / handTurn)));
}

/** Ends a plan after mostPasses and counts what is left. */
void shorten (HeadPlan& plan, const PlanRequest& request)
{
    const std::size_t most = mostPasses + (plan.hasTestTurn ? 1 : 0);

    if (request.largestStep || plan.passes.size() <= most)
        return;

    for (auto pass = plan.passes.begin() + static_cast<std::ptrdiff_t> (most); pass != plan.passes.end(); ++pass)
        plan.turnsLeft += std::accumulate (pass->turns.begin(), pass->turns.end(), 0.0) / request.drum.lugs;

    plan.passes.resize (most);
}

/** What half to twice the usual response makes of the test turn. */
void listAfterTest (HeadPlan& plan, const PlanRequest& request)
{
    const auto& drum = request.drum;
    const auto& head = plan.side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    const double perTurn = plan.response.tensionPerTurn (head, drum.radius(), request.thread),
                 turn = plan.passes.front().turns.front();

    for (const double factor : { 0.5, 0.7, 1.0, 1.4, 2.0 })
        if (const double tension = plan.fromTension + factor * perTurn * turn; tension > 0.01 * modal::yieldTension (head))
            plan.afterTest.push_back (
                { modal::tapNote (drum, plan.side, tension), (plan.toTension - tension) / (factor * perTurn) });

    std::sort (plan.afterTest.begin(), plan.afterTest.end(),
               [] (const AfterTest& a, const AfterTest& b) { return a.tapNote < b.tapNote; });
}

/** Sets tension, note and uncertainty after each pass. */
void predictPasses (HeadPlan& plan, const PlanRequest& request)
{
    const auto& drum = request.drum;
    const auto& head = plan.side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    const double perTurn = plan.response.tensionPerTurn (head, drum.radius(), request.thread);
    double tension = plan.fromTension, moved = 0.0, scatter = 0.0;

    for (auto& pass : plan.passes)
    {
        const double mean = std::accumulate (pass.turns.begin(), pass.turns.end(), 0.0) / drum.lugs;
        const double change = mean * perTurn;
        tension = std::max (tension + change, 0.01 * modal::yieldTension (head));
        moved += change;
        scatter = std::hypot (scatter, scatterOfMoves * change);

        pass.tension = tension;
        pass.tapNote = modal::tapNote (drum, plan.side, tension);
        const double tensionError = std::hypot (plan.response.logError * moved, scatter) / tension;
        pass.tapNoteError = 100.0 * tensionError / std::log1p (modal::semitoneTension (drum, plan.side, tension));
    }
}

void addCautions (HeadPlan& plan, const PlanRequest& request)
{
    const double yield = modal::yieldTension (plan.side == modal::HeadSide::batter ? request.drum.batter : request.drum.resonant);
    double highest = plan.toTension;

    for (const auto& pass : plan.passes)
        highest = std::max (highest, pass.tension);

    if (const double share = highest / yield; share > modal::prudentYieldShare)
        plan.cautions.push_back ({ PlanCaution::Kind::nearYield, share });

    if (const double force = highest * modal::units::twoPi * request.drum.radius() / request.drum.lugs;
        force > modal::prudentRodForce)
        plan.cautions.push_back ({ PlanCaution::Kind::rodForce, force });

    if (const double share = plan.fromTension / yield;
        share < modal::slackYieldShare && ! plan.passes.empty() && plan.passes.front().tension < plan.fromTension)
        plan.cautions.push_back ({ PlanCaution::Kind::nearlySlack, share });
}

HeadPlan planHead (const PlanRequest& request, modal::HeadSide side, const HeadAsIs& now, double target)
{
    const auto& drum = request.drum;
    const bool isBatter = side == modal::HeadSide::batter;
    const auto& head = isBatter ? drum.batter : drum.resonant;
    modal::requireInRange (now.tension, modal::tensionRange (head),
                           std::string (isBatter ? "batter" : "resonant") + " tension now");

    if (! now.lugErrors.empty() && now.lugErrors.size() != now.lugCents.size())
        throw modal::InputError ("lug errors", std::to_string (now.lugErrors.size()) + " values",
                                 "one for each of the lug cents");

    if (! now.lugCents.empty() && static_cast<int> (now.lugCents.size()) != drum.lugs)
        throw modal::InputError ("lug cents", std::to_string (now.lugCents.size()) + " values",
                                 "one for each of the " + std::to_string (drum.lugs) + " lugs");

    HeadPlan plan;
    plan.side = side;
    plan.response = calibrated (drum, side, request.thread, request.observations);
    plan.isCalibrated = std::any_of (request.observations.begin(), request.observations.end(),
                                     [side] (const RodObservation& o) { return o.side == side; });
    plan.fromTension = now.tension;
    plan.toTension = target;
    plan.fromNote = modal::tapNote (drum, side, now.tension);
    plan.toNote = modal::tapNote (drum, side, target);
    plan.forcePerRod = target * modal::units::twoPi * drum.radius() / drum.lugs;
    plan.torque = modal::torqueFor (request.thread, plan.forcePerRod);

    // From the present unevenness to the wanted one.
    const auto& wantedCents = isBatter ? request.wanted.lugs.batter : request.wanted.lugs.resonant;
    const auto nowShares = deviations (distinctCents (now), modal::semitoneTension (drum, side, now.tension), drum.lugs);
    const auto wantedShares = deviations (wantedCents, modal::semitoneTension (drum, side, target), drum.lugs);
    std::vector<double> change (static_cast<std::size_t> (drum.lugs));

    for (std::size_t k = 0; k < change.size(); ++k)
        change[k] = target * (1.0 + wantedShares[k]) - now.tension * (1.0 + nowShares[k]);

    auto turns = turnsFor (change, head, drum.radius(), request.thread, plan.response);
    const double mean = std::accumulate (turns.begin(), turns.end(), 0.0) / drum.lugs;
    const double below = turnsBelow (plan, request, head);
    std::vector<double> back (turns.size(), 0.0);

    // A head that is lowered is lowered as a whole, otherwise only the rods that go down.
    for (std::size_t k = 0; k < turns.size(); ++k)
        if (mean < -0.5 * handTurn || turns[k] < -0.5 * handTurn)
        {
            turns[k] -= below;
            back[k] = below;
        }

    if (const double test = plan.isCalibrated ? 0.0 : testTurnFor (turns, request); test != 0.0)
    {
        plan.hasTestTurn = true;
        plan.passes.push_back ({ .order = tighteningOrder (drum.lugs), .turns = std::vector<double> (turns.size(), test) });

        for (auto& t : turns)
            t -= test;

        listAfterTest (plan, request);
    }

    addPasses (plan, turns, request);
    addPasses (plan, back, request);
    shorten (plan, request);
    predictPasses (plan, request);
    addCautions (plan, request);
    return plan;
}

bool startsDownwards (const HeadPlan& plan)
{
    return ! plan.passes.empty() && plan.passes.front().tension < plan.fromTension;
}

} // namespace

std::string_view nameOf (PlanCaution::Kind kind)
{
    constexpr std::array<std::string_view, 3> names{ "near_yield", "rod_force", "nearly_slack" }; // in the order of the kinds
    return names[static_cast<std::size_t> (kind)];
}

bool Pass::isEven() const noexcept
{
    return std::all_of (turns.begin(), turns.end(), [this] (double t) { return t == turns.front(); });
}

std::vector<int> tighteningOrder (int lugs)
{
    modal::requireInRange (lugs, { 2.0, 64.0, "" }, "lugs");
    std::vector<int> order;

    if (lugs % 2 != 0)
    {
        // Nearly opposite each time. n and (n - 1) / 2 have no common factor for odd n.
        for (int i = 0; i < lugs; ++i)
            order.push_back (i * ((lugs - 1) / 2) % lugs);

        return order;
    }

    const int pairs = lugs / 2;
    std::vector<int> left (static_cast<std::size_t> (pairs));
    std::iota (left.begin(), left.end(), 0);
    int last = 0;

    while (! left.empty())
    {
        const auto next =
            order.empty() ? left.begin()
                          : std::max_element (left.begin(), left.end(),
                                              [&] (int a, int b)
                                              { return circularDistance (a, last, pairs) < circularDistance (b, last, pairs); });
        last = *next;
        order.push_back (last);
        order.push_back (last + pairs);
        left.erase (next);
    }

    return order;
}

void requireAgreement (double noteNow, const RodObservation& last, modal::ConcertPitch pitch, const std::string& field,
                       const std::string& dashes)
{
    constexpr double allowed = 25.0; // cents: a quarter of a semitone, more than a reading errs; common practice, no source

    if (std::abs (modal::centsBetween (last.toNote, noteNow)) > allowed)
        throw modal::InputError (
            field, modal::Note::fromFrequency (noteNow, pitch).nameWithCents(),
            modal::Note::fromFrequency (last.toNote, pitch).nameWithCents() + ", where the last turn of " + dashes +
                "observed left it, within 25 cents; leave the note out to plan from there, or give turns of another "
                "day with " +
                dashes + "calibration");
}

HeadAsIs headAsIs (const HeadFit& fit)
{
    HeadAsIs head{ fit.tension.value };

    for (const auto& lug : fit.lugCents)
    {
        head.lugCents.push_back (lug.value);
        head.lugErrors.push_back (lug.error);
    }

    return head;
}

Plan makePlan (const PlanRequest& request)
{
    modal::check (request.drum);
    modal::check (request.thread);

    if (request.largestStep)
        modal::requireInRange (*request.largestStep, largestStepRange, "largest step");

    if (request.belowTarget)
        modal::requireInRange (*request.belowTarget, belowTargetRange, "way below the target");

    const auto targets = modal::tensionsFor (request.drum, request.wanted);

    Plan plan;

    if (request.resonant && request.drum.hasResonantHead())
        plan.heads.push_back (planHead (request, modal::HeadSide::resonant, *request.resonant, targets.resonant));

    if (request.batter)
        plan.heads.push_back (planHead (request, modal::HeadSide::batter, *request.batter, targets.batter));

    if (plan.heads.empty())
        throw modal::InputError ("head to plan for", "none", "the batter or the resonant head as it is now, or both");

    std::stable_sort (plan.heads.begin(), plan.heads.end(),
                      [] (const HeadPlan& a, const HeadPlan& b) { return startsDownwards (a) && ! startsDownwards (b); });

    return plan;
}

} // namespace fitting
