#include "Iteration.h"

#include "Fitting/common/Errors.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitting
{
namespace
{

constexpr double patchTolerance = 0.05;                  // of its weight, relative
constexpr double secondKindError = 20.0;                 // cents
constexpr double firstWindow = 60.0, laterWindow = 30.0; // cents

/** A small weight mixes in much higher modes. */
constexpr double bandOverNote = 3.6, patchedBandOverNote = 5.5;

/** Probable error in cents by the room, beyond the usual. A room moves a mode's pole as far in decay as in frequency, so an
   unexpected decay shows the error of the frequency. Noise is subtracted, since the recording's own error contains it.

    @param losses  ratio of the head's losses to those predicted */
double astrayInCents (const Comparison& c, double losses)
{
    const double noise = c.decay.error, astray = c.decay.rate - c.decay.rateWith (losses);
    const double pole = std::sqrt (std::max (0.0, astray * astray - noise * noise));
    return centsPerShare * pole / modal::units::twoPi / c.frequency;
}

double median (std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t> (values.size() / 2);
    std::nth_element (values.begin(), middle, values.end());
    return *middle;
}

/** Beyond this error a partial is as likely something other than the mode. */
constexpr double farAstray = 6.0; // cents

/** How the patch sticks to the head is not modelled. */
constexpr double patchedTapError = 1.5; // cents

} // namespace

HeadIteration::HeadIteration (const HeadFitSetup& fitSetup, const std::vector<HeardTap>& heard, bool patched,
                              const HeadState& start, Lugs lugsHandling)
    : state (start), setup (fitSetup), isPatched (patched), lugs (lugsHandling)
{
    for (const auto& tap : heard)
        if (tap.hasPatch == patched && ! tap.partials.empty())
            taps.push_back (&tap);

    prior.setConstant (state.parameters() + offsets, lugs == Lugs::free ? usualUnevenness : 1.0e-9);
    prior[0] = 1.0;
    prior[1] = std::max (setup.massTolerance, 1.0e-6);
    prior[2] = patched ? patchTolerance : 1.0e-6;
    prior.tail (offsets).head (orders).setConstant (setup.modelError);
    prior.tail (orders).setConstant (secondKindError);
    travelled.setZero (prior.size());
}

bool HeadIteration::run()
{
    try
    {
        iterate();
        return true;
    }
    catch (const modal::InputError&)
    {
        return false;
    }
}

void HeadIteration::weighByScatter()
{
    constexpr int passes = 4;
    constexpr double least = 0.25;
    const double asStated = misfit;

    for (int pass = 0; pass < passes; ++pass)
    {
        const double told = (posterior.information * posterior.covariance).trace(); // unknowns that the taps decide
        const double freedom = std::max (1.0, static_cast<double> (compared.size()) - told);
        scatter = std::clamp (scatter * std::sqrt (squares / freedom), least, 1.0);
        solveStep();
        takeStep (1.0);
        observe (laterWindow);

        if (compared.empty())
            return;
    }

    solveStep();
    misfit = asStated;
}

void HeadIteration::refineLugs()
{
    usesSecondKind = true;
    observe (laterWindow);
    solveStep();
    state.lugs += (posterior.mean - travelled).segment (HeadState::others, state.lugs.size());
}

double HeadIteration::recognised() const
{
    const auto all = std::max ({ 1, expected, static_cast<int> (compared.size()) });
    return explained * likely / all;
}

double HeadIteration::massDeviation() const
{
    const double told = std::sqrt (std::max (0.0, std::pow (prior[1], 2) - posterior.covariance (1, 1)));
    return std::log (state.massRatio) / std::max (told, 1.0e-3);
}

void HeadIteration::iterate()
{
    const int passes = isPatched ? 3 : 6;
    constexpr double longestStep = 0.15, settled = 5.0e-5;

    for (int pass = 0; pass < passes; ++pass)
    {
        observe (pass == 0 ? firstWindow : laterWindow);

        if (compared.empty())
            return;

        solveStep();

        if (takeStep (longestStep) < settled)
            break;
    }

    observe (laterWindow);

    if (! compared.empty())
        solveStep();
}

double HeadIteration::takeStep (double longest)
{
    const auto parameters = state.parameters();
    Eigen::VectorXd move = (posterior.mean - travelled).head (parameters);
    const double largest = move.cwiseAbs().maxCoeff();
    move *= std::min (1.0, longest / std::max (largest, 1.0e-12));
    state = state.moved (move);
    travelled.head (parameters) += move;
    return largest;
}

void HeadIteration::observe (double window)
{
    compared.clear();
    expected = 0;
    explained = 0.0;
    const double note = modal::tapNote (setup.drum, setup.side, state.tension);
    const double band = (isPatched ? patchedBandOverNote : bandOverNote) * note;
    const HeadModel model (setup, state, isPatched, lugs == Lugs::free, std::clamp (band, 300.0, 4000.0));

    for (const auto* tap : taps)
    {
        auto one = compareTap (model, *tap, window);
        expected += one.expected;
        explained += one.explained / static_cast<double> (taps.size());

        for (auto& comparison : one.comparisons)
            if (comparison.n == 1 || usesSecondKind)
                compared.push_back (std::move (comparison));
    }
}

/** The posterior of the change since the start, about which the prior is centred. */
void HeadIteration::solveStep()
{
    const auto rows = static_cast<Eigen::Index> (compared.size());
    const auto parameters = state.parameters();
    Eigen::MatrixXd jacobian = Eigen::MatrixXd::Zero (rows + 1, prior.size());
    Eigen::VectorXd observed = Eigen::VectorXd::Zero (rows + 1), full = Eigen::VectorXd::Ones (rows + 1);

    std::vector<HeardDecay> decays;
    std::array<std::vector<double>, offsets> roomOfKind;

    for (const auto& c : compared)
        decays.push_back (c.decay);

    const double losses = lossRatioOf (decays).value;
    likely = 0.0;

    for (Eigen::Index i = 0; i < rows; ++i)
    {
        auto& c = compared[static_cast<std::size_t> (i)];
        jacobian.row (i).head (parameters) = c.gradient.transpose();
        const auto kind = (c.n - 1) * orders + c.m;
        jacobian (i, parameters + kind) = 1.0;
        observed[i] = c.cents + c.gradient.dot (travelled.head (parameters));
        const double always = centsPerShare * roomError / c.frequency;
        c.astray = astrayInCents (c, losses);
        likely += 1.0 / (1.0 + std::pow (c.astray / farAstray, 2));
        roomOfKind[static_cast<std::size_t> (kind)].push_back (std::hypot (always, c.astray));
        const double tapError = isPatched ? std::max (patchedTapError, setup.tapError) : setup.tapError;
        full[i] = 1.0 / std::hypot (c.error, c.astray, scatter * std::hypot (tapError, always));
    }

    // All taps of a kind share the room.
    for (int kind = 0; kind < offsets; ++kind)
        if (const auto& room = roomOfKind[static_cast<std::size_t> (kind)]; ! room.empty())
            prior[parameters + kind] = std::hypot (kind < orders ? setup.modelError : secondKindError, median (room));

    // The mean of the lugs is zero.
    if (lugs == Lugs::free)
        jacobian.row (rows).segment (HeadState::others, state.lugs.size()).setConstant (1.0e5);

    const auto found = RobustPosterior::of (jacobian, observed, full, prior, rows);
    posterior = found.posterior;
    squares = found.squares;
    cost = squares + posterior.mean.cwiseQuotient (prior).squaredNorm();
    misfit = std::sqrt ((squares + posterior.mean.tail (offsets).cwiseQuotient (prior.tail (offsets)).squaredNorm()) /
                        static_cast<double> (std::max<Eigen::Index> (rows, 1)));
}

} // namespace fitting
