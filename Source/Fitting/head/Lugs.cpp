#include "Lugs.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

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

/** Information and pull on the lugs, marginalised over everything else. */
LugData lugDataOf (const HeadIteration& fitted)
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
    LugData data;
    reordered.reduceTo (size - lugs, prior, data.information, data.pull);
    return data;
}

/** With the patch on one side opposite lugs no longer sound the same: tries each suspect on the taps with the patch. */
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

    // The misfit of the best suspect scales the errors of this comparison.
    const double scale = std::max (1.0, leastMisfit * leastMisfit);
    double sum = 0.0;

    for (std::size_t k = 0; k < costs.size(); ++k)
        sum += fit.suspects[k].probability *= costs[k] < none ? std::exp (-0.5 * (costs[k] - leastCost) / scale) : 0.0;

    for (auto& suspect : fit.suspects)
        suspect.probability /= sum;

    sortSuspects (fit.suspects);
}

/** A lug's relative tension over the mean if it alone is off by 1. */
Eigen::VectorXd oneLugOff (Eigen::Index lug, Eigen::Index lugs)
{
    Eigen::VectorXd pattern = Eigen::VectorXd::Constant (lugs, -1.0 / static_cast<double> (lugs));
    pattern[lug] += 1.0;
    return pattern;
}

} // namespace

std::vector<Estimate> lugTensions (const LugData& data, double semitone)
{
    constexpr double scatters[] = { 1.0, 2.0, 4.0, 8.0, 16.0, 32.0 }; // cents
    const auto lugs = data.pull.size();
    const Eigen::MatrixXd withoutMean =
        Eigen::MatrixXd::Identity (lugs, lugs) - Eigen::MatrixXd::Constant (lugs, lugs, 1.0 / static_cast<double> (lugs));

    struct Hypothesis
    {
        double logWeight;
        Eigen::VectorXd mean, variance;
    };

    std::vector<Hypothesis> all;
    const auto add = [&] (const Eigen::MatrixXd& prior, double weight)
    {
        const Eigen::PartialPivLU<Eigen::MatrixXd> solver (Eigen::MatrixXd::Identity (lugs, lugs) + prior * data.information);
        const Eigen::MatrixXd covariance = solver.solve (prior);
        const Eigen::VectorXd mean = covariance * data.pull;
        all.push_back (
            { std::log (weight) + 0.5 * (data.pull.dot (mean) - std::log (solver.determinant())), mean, covariance.diagonal() });
    };

    for (const double cents : scatters)
    {
        const Eigen::MatrixXd scattered = std::pow (semitone * cents / 100.0, 2) * withoutMean;
        add (scattered, 1.0);

        for (Eigen::Index k = 0; k < lugs; ++k)
        {
            const Eigen::VectorXd off = HeadIteration::usualUnevenness * oneLugOff (k, lugs);
            add (scattered + off * off.transpose(), 1.0 / static_cast<double> (lugs));
        }
    }

    const double best = std::max_element (all.begin(), all.end(),
                                          [] (const Hypothesis& a, const Hypothesis& b) { return a.logWeight < b.logWeight; })
                            ->logWeight;
    double sum = 0.0;
    Eigen::VectorXd mean = Eigen::VectorXd::Zero (lugs), square = mean;

    for (const auto& one : all)
    {
        const double weight = std::exp (one.logWeight - best);
        sum += weight;
        mean += weight * one.mean;
        square += weight * (one.variance + one.mean.cwiseAbs2());
    }

    mean /= sum;
    const Eigen::VectorXd error = (square / sum - mean.cwiseAbs2()).cwiseMax (0.0).cwiseSqrt();
    std::vector<Estimate> tensions;

    for (Eigen::Index k = 0; k < lugs; ++k)
        tensions.push_back ({ mean[k], error[k] });

    return tensions;
}

void estimateLugs (HeadFit& fit, const HeadFitSetup& setup, const std::vector<HeardTap>& taps, const HeadIteration& fitted,
                   double semitone)
{
    auto uneven = fitted;
    uneven.refineLugs();
    const double perShare = centsOf (0.01, semitone) / 0.01;
    const auto data = lugDataOf (uneven);

    for (const auto& [value, error] : lugTensions (data, semitone))
        fit.lugCents.push_back ({ centsOf (value, semitone), perShare * error });

    suspectLugs (fit, data, semitone);
    decideBetweenSuspects (fit, setup, taps, fitted, semitone);
}

void suspectLugs (HeadFit& fit, const LugData& data, double semitone)
{
    const auto& [information, pull] = data;
    const auto lugs = pull.size();
    constexpr double prior = 1.0 / (HeadIteration::usualUnevenness * HeadIteration::usualUnevenness);

    const Eigen::VectorXd found = (information + prior * Eigen::MatrixXd::Identity (lugs, lugs)).ldlt().solve (pull);
    fit.unevenness = std::sqrt (std::max (0.0, 2.0 * pull.dot (found) - found.dot (information * found)));
    std::vector<double> gains;

    for (Eigen::Index k = 0; k < lugs; ++k)
    {
        const auto pattern = oneLugOff (k, lugs);
        const double weight = pattern.dot (information * pattern) + prior;
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

LugVerdict HeadFit::verdict() const
{
    constexpr double worthNaming = 0.05; // probability

    if (suspects.empty())
        return {};

    if (unevenness <= clearlyUneven)
        return { LugVerdict::Kind::even };

    const double cents = suspects.front().cents.value;
    LugVerdict verdict{ LugVerdict::Kind::oneLug, { suspects.front().lug }, -cents };

    for (auto other = suspects.begin() + 1; other != suspects.end(); ++other)
        if (other->probability > worthNaming)
            verdict.lugs.push_back (other->lug);

    const bool isOpposite =
        verdict.lugs.size() == 2 && 2 * std::abs (verdict.lugs[0] - verdict.lugs[1]) == static_cast<int> (suspects.size());

    if (isOpposite)
        return { LugVerdict::Kind::oppositeLugs, verdict.lugs, -0.5 * cents };

    if (verdict.lugs.size() > 1)
        return { LugVerdict::Kind::severalLugs, verdict.lugs };

    return verdict;
}

} // namespace fitting
