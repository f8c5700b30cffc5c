#include "Findings.h"

#include "Fitting/drum/Search.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

using Kind = Finding::Kind;
using Severity = Finding::Severity;

constexpr double enoughModes = 0.33;     // share of those expected
constexpr double worstMisfit = 3.0;      // standard deviations
constexpr double unresolved = 0.6;       // of the mass's prior standard deviation that is left after listening
constexpr double farFromTolerance = 3.0; // standard deviations of the head's mass
constexpr double unusual = 2.0;          // standard deviations of the head's mass: one head in twenty, if all is as stated
constexpr double usualLosses = 1.6;      // factor either way; common practice, no source

void addWarnings (HeadFit& fit, const HeadFitSetup& setup, const HeadIteration& fitted, const std::optional<Rival>& rival)
{
    const auto warn = [&fit] (Kind kind, double number) { fit.findings.push_back ({ kind, Severity::warning, { number } }); };

    if (rival && rival->lead > clearlyBetter)
        fit.findings.push_back (rival->finding (Severity::warning, setup.drum.diameter));

    if (std::abs (fitted.massDeviation()) > unusual)
        warn (Kind::otherMass, fitted.state.massRatio);

    if (fitted.misfit > goodMisfit)
        warn (Kind::inconsistentNotes, fitted.misfit);

    const auto& [ratio, error] = fit.lossRatio;

    if (error > 0.0 && ratio - 2.0 * error > usualLosses)
        warn (Kind::fastDecay, ratio);
    else if (error > 0.0 && ratio + 2.0 * error < 1.0 / usualLosses)
        warn (Kind::slowDecay, ratio);
}

} // namespace

std::vector<Finding> refusals (const HeadFitSetup& setup, const std::optional<HeadIteration>& best,
                               const std::optional<Rival>& rival)
{
    const bool hasOtherMass = best && std::abs (best->massDeviation()) > farFromTolerance;
    const auto otherMass = [&] { return Finding{ Kind::otherMass, Severity::refusal, { best->state.massRatio } }; };

    if (rival && rival->lead > surelyBetter)
    {
        std::vector<Finding> found{ rival->finding (Severity::refusal, setup.drum.diameter) };

        if (hasOtherMass)
            found.push_back (otherMass());

        return found;
    }

    if (! best)
        return { { Kind::noTension, Severity::refusal } };

    if (best->compared.empty() || best->recognised() <= enoughModes)
        return { { Kind::tooFewModes, Severity::refusal } };

    if (best->misfit > worstMisfit)
        return { { Kind::inconsistentNotes, Severity::refusal, { best->misfit } } };

    if (hasOtherMass)
        return { otherMass() };

    return {};
}

void addRemarks (HeadFit& fit, const HeadFitSetup& setup, const HeadIteration& fitted, const std::optional<Rival>& rival)
{
    addWarnings (fit, setup, fitted, rival);

    if (std::all_of (fitted.compared.begin(), fitted.compared.end(),
                     [&] (const Comparison& c) { return c.m == fitted.compared.front().m; }))
        fit.findings.push_back ({ Kind::oneKindOfMode });

    const auto& covariance = fitted.posterior.covariance;

    if (std::sqrt (covariance (1, 1)) > unresolved * fitted.prior[1] && setup.massTolerance > 0.0)
        fit.findings.push_back ({ .kind = Kind::massNotMeasured,
                                  .numbers = { covariance (0, 1) / std::sqrt (covariance (0, 0) * covariance (1, 1)) } });

    if (fitted.state.lugs.size() == 0)
        fit.findings.push_back ({ Kind::oneLugTapped });
}

} // namespace fitting
