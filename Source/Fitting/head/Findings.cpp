#include "Findings.h"

#include "Fitting/common/HeadMass.h"
#include "Fitting/drum/Search.h"
#include "Modal/heads/OneHead.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

using Kind = Finding::Kind;
using Severity = Finding::Severity;

constexpr double enoughModes = 0.33;     // share of those expected
constexpr double doubtfulEvidence = 0.4; // of taps, as littleEvidence is of strikes: simulated real heads reach 0.5 to 2.4
constexpr std::size_t enoughToDoubt = 4, enoughToRefuse = 7; // notes
constexpr double vague = 8.0;                                // cents: a line's own error
constexpr double unusual = 2.0;     // standard deviations of the head's mass: one head in twenty, if all is as stated
constexpr double usualLosses = 1.6; // factor either way; common practice, no source

void addWarnings (HeadFit& fit, const HeadFitSetup& setup, const std::optional<NotesExplained>& explained,
                  const HeadIteration& fitted, const std::optional<Rival>& rival)
{
    const auto warn = [&fit] (Kind kind, double number) { fit.findings.push_back ({ kind, Severity::warning, { number } }); };

    if (rival && rival->lead > surelyBetter)
        fit.findings.push_back (rival->warning (setup.drum.diameter));

    if (explained && explained->evidence < doubtfulEvidence)
        fit.findings.push_back ({ Kind::unexplainedNotes, Severity::warning });

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

std::optional<NotesExplained> evidenceOf (const HeadFitSetup& setup, const std::vector<Line>& lines, const HeadState& state)
{
    constexpr double above = 1.08; // of the highest line
    constexpr int orders = 9;
    const auto telling = tellingLines (lines);

    if (telling.size() < enoughToDoubt)
        return std::nullopt;

    const auto drum = withHeadMass (modal::asTapped (setup.drum, setup.side), modal::HeadSide::batter, state.massRatio);
    const auto modes = DrumModel (drum, above * telling.back().frequency, orders).modesAt (state.tension, 0.0);
    return NotesExplained{ evidence (telling, modes, std::max (vague, setup.modelError), setup.decayError) / weightOf (telling),
                           telling.size() };
}

std::vector<Finding> refusals (const std::vector<Line>& lines, const std::optional<NotesExplained>& explained,
                               const std::optional<HeadIteration>& best, const std::optional<Rival>& rival)
{
    const auto refusal = [] (Kind kind) { return std::vector<Finding>{ { kind, Severity::refusal } }; };

    if (areHarmonics (lines))
        return refusal (Kind::harmonicNotes);

    // Both heads ring: no lug and no tension can be told.
    if (rival && rival->kind == Kind::otherHeadRings && rival->lead > certainlyBetter)
        return refusal (rival->kind);

    if (! best)
        return refusal (Kind::noTension);

    if (best->compared.empty() || best->recognised() <= enoughModes)
        return refusal (Kind::tooFewModes);

    if (explained && explained->notes >= enoughToRefuse && explained->evidence < leastEvidence)
        return refusal (Kind::unexplainedNotes);

    return {};
}

void addRemarks (HeadFit& fit, const HeadFitSetup& setup, const std::optional<NotesExplained>& explained,
                 const HeadIteration& fitted, const std::optional<Rival>& rival)
{
    addWarnings (fit, setup, explained, fitted, rival);

    if (std::all_of (fitted.compared.begin(), fitted.compared.end(),
                     [&] (const Comparison& c) { return c.m == fitted.compared.front().m; }))
        fit.findings.push_back ({ Kind::oneKindOfMode });

    const auto& covariance = fitted.posterior.covariance;

    if (std::sqrt (covariance (1, 1)) > unresolvedMass * fitted.prior[1] && setup.massTolerance > 0.0)
        fit.findings.push_back ({ .kind = Kind::massNotMeasured,
                                  .numbers = { covariance (0, 1) / std::sqrt (covariance (0, 0) * covariance (1, 1)) } });

    if (fitted.state.lugs.size() == 0)
        fit.findings.push_back ({ Kind::oneLugTapped });
}

} // namespace fitting
