#include "Fitting/Head.h"

#include "Findings.h"
#include "Lugs.h"

#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Fitting/drum/Search.h"
#include "Iteration.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Rival.h"
#include "Start.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitting
{
namespace
{

constexpr double poorMatch = 0.1; // of the first guess

void checkSetup (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    modal::check (setup.drum);
    modal::requireInRange (setup.massTolerance, { 0.0, 0.2, "" }, "tolerance of the head's mass");
    modal::requireInRange (setup.modelError, modelErrorRange, "error of the model");
    modal::requireInRange (setup.decayError, decayErrorRange, "error of the predicted decays");
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

double qualityOf (const HeadIteration& fitted)
{
    return fitted.recognised() / (1.0 + fitted.misfit);
}

/** True if taps are beside more than one lug. */
bool hasSeveralLugs (const std::vector<HeardTap>& taps)
{
    return std::any_of (taps.begin(), taps.end(), [&] (const HeardTap& t) { return t.lug != taps.front().lug; });
}

/** The taps on the bare head fitted from each start that matches at all; the best of them. */
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

/** Tension, mass and tap note. */
void estimate (HeadFit& fit, const HeadFitSetup& setup, const HeadIteration& fitted, double semitone)
{
    const auto& covariance = fitted.posterior.covariance;
    const auto& state = fitted.state;
    fit.tension = { state.tension, state.tension * std::sqrt (covariance (0, 0)) };
    fit.massRatio = { state.massRatio, state.massRatio * std::sqrt (covariance (1, 1)) };

    // The tap note depends on tension and mass like an observation of (1,1), and is as far off the model as this head is.
    const auto drum = withHeadMass (setup.drum, setup.side, state.massRatio);
    const double predicted = modal::tapNote (drum, setup.side, state.tension);
    const auto offset = fitted.offsetOfTapNote();
    fit.tapNote.value = predicted * std::exp2 (offset.value / 1200.0);
    constexpr double step = 0.01;
    const double heavier =
        modal::tapNote (withHeadMass (setup.drum, setup.side, (1.0 + step) * state.massRatio), setup.side, state.tension);
    Eigen::VectorXd gradient = fitted.gradientOfOffset() / centsPerShare;
    gradient[0] += std::log (2.0) / 12.0 / std::log1p (semitone);
    gradient[1] += std::log (heavier / predicted) / std::log1p (step);
    fit.tapNote.error = fit.tapNote.value * std::hypot (std::sqrt (std::max (0.0, gradient.dot (covariance * gradient))),
                                                        offset.error / centsPerShare);
}

} // namespace

HeadFit fitHead (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    checkSetup (setup, taps);
    HeadFit fit;

    const auto hasPartials = [] (const HeardTap& tap) { return ! tap.partials.empty(); };
    fit.tapsUsed = static_cast<int> (std::count_if (taps.begin(), taps.end(), hasPartials));

    if (std::none_of (taps.begin(), taps.end(), [&] (const HeardTap& t) { return ! t.hasPatch && hasPartials (t); }))
    {
        fit.findings.push_back ({ Finding::Kind::noReadableTap, Finding::Severity::refusal });
        return fit;
    }

    const auto best = bestFit (setup, taps);
    const auto lines = linesOfBareTaps (taps);
    const auto rival = hasSeveralLugs (taps) ? likeliestRival (setup, lines) : std::nullopt;
    const auto evidence = best ? evidenceOf (setup, lines, best->state) : std::nullopt;
    fit.misfit = best ? best->misfit : 0.0;
    fit.findings = refusals (lines, evidence, best, rival);
    fit.isPossible = fit.findings.empty();

    if (! fit.isPossible)
        return fit;

    const double semitone =
        modal::semitoneTension (withHeadMass (setup.drum, setup.side, best->state.massRatio), setup.side, best->state.tension);
    estimate (fit, setup, *best, semitone);

    if (best->state.lugs.size() > 0)
        estimateLugs (fit, setup, taps, *best, semitone);

    fit.lossRatio = best->losses();
    addRemarks (fit, setup, evidence, *best, rival);
    return fit;
}

} // namespace fitting
