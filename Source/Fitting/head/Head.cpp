#include "Fitting/Head.h"

#include "Fitting/drum/Search.h"
#include "Fitting/common/Errors.h"
#include "Iteration.h"
#include "Fitting/common/HeadMass.h"
#include "Rival.h"
#include "Start.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitting
{
namespace
{

constexpr double poorMatch = 0.1;        // of the first guess
constexpr double enough = 0.33;          // recognised
constexpr double worstMisfit = 3.0;      // standard deviations
constexpr double unresolved = 0.6;       // of the prior's standard deviation that is left after listening
constexpr double farFromTolerance = 3.0; // standard deviations of the head's mass
constexpr double unusual = 2.0;          // standard deviations of the head's mass: one in twenty, if all is as stated
constexpr double usualLosses = 1.6;      // factor either way; common practice, no source

constexpr auto whatToCheck = "Is the other head held still with a cloth or a hand? Are diameter, depth and this head as stated?";

void checkSetup (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    modal::check (setup.drum);
    modal::requireInRange (setup.massTolerance, { 0.0, 0.2, "" }, "tolerance of the head's mass");
    modal::requireInRange (setup.modelError, { 0.1, 50.0, "cents" }, "error of the model");
    modal::requireInRange (setup.tapError, { 0.05, 20.0, "cents" }, "error of a tap");

    if (setup.startTension)
        modal::requireInRange (*setup.startTension, { 1.0, 1.0e5, "N/m" }, "tension to start from");

    if (setup.side == modal::HeadSide::resonant && ! setup.drum.hasResonantHead())
        throw modal::InputError ("head to fit", "resonant", "batter: the drum has no resonant head");

    for (const auto& tap : taps)
    {
        modal::requireInRange (tap.lug, { 0.0, setup.drum.lugs - 1.0, "" }, "lug that was tapped");
        modal::requireInRange (tap.inset, { 0.0, setup.drum.radius(), "m" }, "distance of a tap from the edge");

        if (tap.hasPatch && ! setup.patch)
            throw modal::InputError ("patch", "none", "what lies on the head for the taps with a patch");
    }
}

/** 0 to 1: how much of what ought to be heard was heard, and how much of what was heard belongs to it. */
double recognised (const HeadIteration& fitted)
{
    const auto all = std::max ({ 1, fitted.expected, static_cast<int> (fitted.compared.size()) });
    return fitted.explained * fitted.likely / all;
}

double qualityOf (const HeadIteration& fitted)
{
    return recognised (fitted) / (1.0 + fitted.misfit);
}

/** True if taps are beside more than one lug. */
bool hasSeveralLugs (const std::vector<HeardTap>& taps)
{
    return std::any_of (taps.begin(), taps.end(), [&] (const HeardTap& t) { return t.lug != taps.front().lug; });
}

/** By how many standard deviations the taps want a head of another mass than stated: what a head's mass may be, before listening
    and after it, taken together. The fit itself comes back towards the mass stated. */
double massAstray (const HeadIteration& fitted)
{
    const double told = std::sqrt (std::max (0.0, std::pow (fitted.prior[1], 2) - fitted.posterior.covariance (1, 1)));
    return std::log (fitted.state.massRatio) / std::max (told, 1.0e-3);
}

std::string otherMass (const HeadIteration& fitted)
{
    const double ratio = fitted.state.massRatio;
    return "a head " + modal::asText (100.0 * std::abs (ratio - 1.0), 2) + " % " + (ratio < 1.0 ? "lighter" : "heavier") +
           " than stated";
}

/** The bare walk fitted from each start that matches at all; the best of them. */
std::optional<HeadIteration> bestFit (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    std::optional<HeadIteration> best;

    const auto starts = setup.startTension ? std::vector<HeadStart>{ { *setup.startTension, 1.0 } } : headStarts (setup, taps);

    for (const auto& start : starts)
    {
        if (start.match < std::max (poorMatch, 0.5 * starts.front().match))
            continue;

        HeadState first;
        first.tension = start.tension;
        first.lugs = Eigen::VectorXd::Zero (hasSeveralLugs (taps) ? setup.drum.lugs : 0);
        HeadIteration trial (setup, taps, false, first, HeadIteration::Lugs::free);

        if (trial.run() && (! best || qualityOf (trial) > qualityOf (*best)))
            best.emplace (std::move (trial));
    }

    if (best && ! best->compared.empty())
        best->weighByScatter();

    return best;
}

/** Cents of tap note beside a lug for a relative tension there: as modal reads LugCents. */
double centsOf (double deviation, double semitone)
{
    return 100.0 * std::log1p (std::max (deviation, -0.9)) / std::log1p (semitone);
}

void sortSuspects (std::vector<LugSuspicion>& suspects)
{
    std::stable_sort (suspects.begin(), suspects.end(),
                      [] (const LugSuspicion& a, const LugSuspicion& b) { return a.probability > b.probability; });
}

void suspectLugs (HeadFit& fit, const HeadIteration& fitted, double semitone)
{
    const auto lugs = fitted.state.lugs.size();
    const auto first = static_cast<Eigen::Index> (HeadState::others);
    const auto size = fitted.prior.size();

    // Order the unknowns so that the lugs come last.
    Posterior reordered;
    Eigen::VectorXi order (size);
    Eigen::Index at = 0;

    for (Eigen::Index i = 0; i < size; ++i)
        if (i < first || i >= first + lugs)
            order[at++] = static_cast<int> (i);

    for (Eigen::Index i = 0; i < lugs; ++i)
        order[at++] = static_cast<int> (first + i);

    reordered.information = fitted.posterior.information (order, order);
    reordered.pull = fitted.posterior.pull (order);
    const Eigen::VectorXd prior = fitted.prior (order);
    Eigen::MatrixXd information;
    Eigen::VectorXd pull;
    reordered.reduceTo (size - lugs, prior, information, pull);

    const Eigen::VectorXd lugPart = fitted.posterior.mean.segment (first, lugs);
    fit.unevenness = std::sqrt (std::max (0.0, 2.0 * pull.dot (lugPart) - lugPart.dot (information * lugPart)));
    std::vector<double> gains;

    for (Eigen::Index k = 0; k < lugs; ++k)
    {
        // Lug k alone off by x: x over it, and the mean taken out.
        Eigen::VectorXd pattern = Eigen::VectorXd::Constant (lugs, -1.0 / static_cast<double> (lugs));
        pattern[k] += 1.0;
        const double weight =
            pattern.dot (information * pattern) + 1.0 / (HeadIteration::usualUnevenness * HeadIteration::usualUnevenness);
        const double size1 = pattern.dot (pull) / weight;
        gains.push_back (0.5 * size1 * size1 * weight);
        const double perShare = centsOf (0.01, semitone) / 0.01;
        fit.suspects.push_back ({ static_cast<int> (k), { centsOf (size1, semitone), perShare / std::sqrt (weight) }, 0.0 });
    }

    const double best = *std::max_element (gains.begin(), gains.end());
    double sum = 0.0;

    for (std::size_t k = 0; k < gains.size(); ++k)
        sum += fit.suspects[k].probability = std::exp (gains[k] - best);

    for (auto& suspect : fit.suspects)
        suspect.probability /= sum;

    sortSuspects (fit.suspects);
}

/** With the patch on one side the suspects no longer sound alike: each is tried on the taps with the patch. */
void decideBetweenSuspects (HeadFit& fit, const HeadFitSetup& setup, const std::vector<HeardTap>& taps,
                            const HeadIteration& fitted, double semitone)
{
    const bool hasPatched =
        std::any_of (taps.begin(), taps.end(), [] (const HeardTap& t) { return t.hasPatch && ! t.partials.empty(); });

    if (! hasPatched || fit.unevenness < clearlyUneven)
        return;

    constexpr double worthTrying = 0.02, none = 1.0e30;
    std::vector<double> costs;
    double leastCost = none, leastMisfit = none;

    for (const auto& suspect : fit.suspects)
    {
        costs.push_back (none);

        if (suspect.probability < worthTrying)
            continue;

        auto start = fitted.state;
        const double share = std::pow (1.0 + semitone, suspect.cents.value / 100.0) - 1.0;
        start.lugs.setConstant (-share / static_cast<double> (start.lugs.size()));
        start.lugs[suspect.lug] += share;

        HeadIteration trial (setup, taps, true, start, HeadIteration::Lugs::held);

        if (! trial.run() || trial.compared.empty())
            return;

        costs.back() = trial.cost;
        leastCost = std::min (leastCost, trial.cost);
        leastMisfit = std::min (leastMisfit, trial.misfit);
    }

    // What is left over even at best measures how far this comparison can be trusted.
    const double scale = std::max (1.0, leastMisfit * leastMisfit);
    double sum = 0.0;

    for (std::size_t k = 0; k < costs.size(); ++k)
        sum += fit.suspects[k].probability *= costs[k] < none ? std::exp (-0.5 * (costs[k] - leastCost) / scale) : 0.0;

    for (auto& suspect : fit.suspects)
        suspect.probability /= sum;

    sortSuspects (fit.suspects);
}

Estimate lossesOf (const std::vector<Comparison>& compared)
{
    std::vector<HeardDecay> heard;

    for (const auto& c : compared)
        heard.push_back (c.decay);

    return lossRatioOf (heard);
}

/** What to do if the lug that is off cannot be told from others.

    An uneven field's even harmonics split pairs of modes to first order, its odd ones to second only. To turn either of two
   opposite lugs back, or both by half, takes the same even harmonics away; what is left, an odd field, is least at worst if both
   turn by half: half of the fault, and never more. */
void sayWhatToTurn (HeadFit& fit)
{
    constexpr double worthSaying = 0.05; // probability
    const auto& first = fit.suspects.front();
    const int lugs = static_cast<int> (fit.suspects.size());
    std::string others;
    bool isOppositeAlone = lugs % 2 == 0;

    for (std::size_t k = 1; k < fit.suspects.size(); ++k)
        if (const auto& other = fit.suspects[k]; other.probability > worthSaying)
        {
            others += (others.empty() ? "" : ", ") + std::to_string (other.lug + 1);
            isOppositeAlone = isOppositeAlone && std::abs (other.lug - first.lug) == lugs / 2;
        }

    if (others.empty())
        return;

    const std::string name = std::to_string (first.lug + 1);

    if (isOppositeAlone)
        fit.doubts.push_back ("If one lug alone is off, lug " + name + " cannot be told from " + others +
                              ", opposite: a head's notes are the same for both. Turn both, each by half of it: that takes the "
                              "beating away whichever it was, and leaves neither further off than half. A known weight on one "
                              "side of the head, between two lugs, and another walk may decide.");
    else
        fit.doubts.push_back ("If one lug alone is off, lug " + name + " cannot be told from " + others +
                              ". Go by the cents of all lugs, or tap round once more, closer to the microphone.");
}

/** Sentences about what the taps leave open. */
void sayDoubts (HeadFit& fit, const HeadFitSetup& setup, const HeadIteration& fitted)
{
    const auto& covariance = fitted.posterior.covariance;
    const double massError = std::sqrt (covariance (1, 1));

    if (massError > unresolved * fitted.prior[1] && setup.massTolerance > 0.0)
    {
        const double correlation = covariance (0, 1) / std::sqrt (covariance (0, 0) * covariance (1, 1));
        fit.doubts.push_back ("The head's mass is not told by these taps; its tolerance is taken as stated." +
                              std::string (correlation > 0.8
                                               ? " A heavier head drawn tighter would sound the same: their errors go together."
                                               : ""));
    }

    if (fitted.state.lugs.size() == 0)
    {
        fit.doubts.push_back ("All taps are at one lug: how even the head is cannot be told. Tap beside every lug in turn.");
        return;
    }

    if (fit.suspects.size() > 1 && fit.unevenness > clearlyUneven)
        sayWhatToTurn (fit);
}

/** What makes the whole state doubtful. */
void warn (HeadFit& fit, const HeadFitSetup& setup, const HeadIteration& fitted, const std::optional<Rival>& rival)
{
    if (rival && rival->lead > clearlyBetter)
        fit.warnings.push_back (inWords (*rival, setup) + " That is likelier than not, though not sure.");

    if (std::abs (massAstray (fitted)) > unusual)
        fit.warnings.push_back ("The notes want " + otherMass (fitted) + ", further than nineteen of twenty such heads differ. " +
                                whatToCheck + " If not, tension and mass are both wrong.");

    if (fitted.misfit > goodMisfit)
        fit.warnings.push_back ("The notes miss one another by " + modal::asText (fitted.misfit, 2) + " times what is likely. " +
                                whatToCheck);

    const auto& losses = fit.lossRatio;

    if (losses.error > 0.0 && losses.value - 2.0 * losses.error > usualLosses)
        fit.warnings.push_back ("The notes fade " + modal::asText (losses.value, 2) +
                                " times as fast as film and edge make them. Does something lie on this head or touch it? " +
                                whatToCheck);
    else if (losses.error > 0.0 && losses.value + 2.0 * losses.error < 1.0 / usualLosses)
        fit.warnings.push_back (std::string ("The notes ring longer than film and edge let them. ") + whatToCheck);
}

} // namespace

std::string HeadFit::mostPressing() const
{
    if (! warnings.empty())
        return warnings.front();

    return doubts.empty() ? std::string() : doubts.front();
}

HeadFit fitHead (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    checkSetup (setup, taps);
    HeadFit fit;

    const auto hasPartials = [] (const HeardTap& tap) { return ! tap.partials.empty(); };
    fit.tapsUsed = static_cast<int> (std::count_if (taps.begin(), taps.end(), hasPartials));

    if (std::none_of (taps.begin(), taps.end(), [&] (const HeardTap& t) { return ! t.hasPatch && hasPartials (t); }))
    {
        fit.doubts.push_back ("No tap on the bare head gave a note that can be read.");
        return fit;
    }

    const auto best = bestFit (setup, taps);
    const auto rival = hasSeveralLugs (taps) ? likeliestRival (setup, taps) : std::nullopt;

    if (rival && rival->lead > surelyBetter)
    {
        fit.misfit = best ? best->misfit : 0.0;
        fit.doubts.push_back (inWords (*rival, setup));

        if (best && std::abs (massAstray (*best)) > farFromTolerance)
            fit.doubts.push_back ("As the drum is stated, they would fit only " + otherMass (*best) + ".");

        return fit;
    }

    if (! best)
    {
        fit.doubts.push_back ("No tension of this head on a drum of this size gives the notes heard. Are the wires off? " +
                              std::string (whatToCheck));
        return fit;
    }

    const auto& fitted = *best;
    const auto& c = fitted.compared;
    const bool heardEnough = recognised (fitted) > enough && ! c.empty();
    std::vector<int> kinds;

    for (const auto& comparison : c)
        if (std::find (kinds.begin(), kinds.end(), comparison.m) == kinds.end())
            kinds.push_back (comparison.m);

    fit.misfit = fitted.misfit;

    if (! heardEnough || fitted.misfit > worstMisfit)
    {
        fit.doubts.push_back (
            heardEnough ? "The notes heard do not belong together on a drum of this size and head: they miss by " +
                              modal::asText (fitted.misfit, 2) + " times what is likely. " + whatToCheck
                        : "Too few of the modes expected were heard. Record closer to the lug. " + std::string (whatToCheck));
        return fit;
    }

    if (std::abs (massAstray (fitted)) > farFromTolerance)
    {
        fit.doubts.push_back ("The notes would fit only " + otherMass (fitted) + ", which its tolerance rules out. " +
                              whatToCheck);
        return fit;
    }

    fit.isPossible = true;
    const auto& covariance = fitted.posterior.covariance;
    const auto& state = fitted.state;
    fit.tension = { state.tension, state.tension * std::sqrt (covariance (0, 0)) };
    fit.massRatio = { state.massRatio, state.massRatio * std::sqrt (covariance (1, 1)) };

    // The tap note goes with tension and mass along the same gradient as an observation of (1,1) does, the model's part of its
    // offset included; the rest of the offset is the room's.
    const auto drum = withHeadMass (setup.drum, setup.side, state.massRatio);
    const double predicted = modal::tapNote (drum, setup.side, state.tension);
    const auto offset = state.parameters() + 1;
    const double modelShare = std::pow (setup.modelError / fitted.prior[offset], 2);
    fit.tapNote.value = predicted * std::exp2 (modelShare * fitted.posterior.mean[offset] / 1200.0);
    const double semitone = modal::semitoneTension (drum, setup.side, state.tension);
    const double exponent = std::log (2.0) / 12.0 / std::log1p (semitone);
    Eigen::VectorXd gradient = Eigen::VectorXd::Zero (fitted.prior.size());
    gradient[0] = exponent;
    gradient[1] = -exponent;
    gradient[offset] = modelShare / centsPerShare;
    const double apart = std::pow (setup.modelError / centsPerShare, 2) * (1.0 - modelShare);
    fit.tapNote.error = fit.tapNote.value * std::sqrt (std::max (0.0, gradient.dot (covariance * gradient)) + apart);

    if (state.lugs.size() > 0)
    {
        auto uneven = fitted;
        uneven.refineLugs();

        for (Eigen::Index k = 0; k < state.lugs.size(); ++k)
        {
            const double perShare = centsOf (0.01, semitone) / 0.01;
            const auto at = HeadState::others + k;
            fit.lugCents.push_back (
                { centsOf (uneven.state.lugs[k], semitone), perShare * std::sqrt (uneven.posterior.covariance (at, at)) });
        }

        suspectLugs (fit, uneven, semitone);
        decideBetweenSuspects (fit, setup, taps, fitted, semitone);
    }

    fit.lossRatio = lossesOf (c);
    warn (fit, setup, fitted, rival);

    if (kinds.size() < 2)
        fit.doubts.push_back (
            "Only one kind of mode was heard, so nothing confirms that the drum's size and head are as stated.");

    sayDoubts (fit, setup, fitted);
    return fit;
}

} // namespace fitting
