#include "Iteration.h"

#include "Fitting/common/Discrepancy.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/Statistics.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <array>
#include <cmath>

namespace fitting
{
namespace
{

constexpr double patchTolerance = 0.05;  // of its weight, relative
constexpr double secondKindError = 20.0; // cents

/** How far from its mode a partial is looked for, cents: at least, and in standard deviations of the model. */
constexpr double firstWindow = 60.0, laterWindow = 30.0;
constexpr double firstDeviations = 3.5, laterDeviations = 3.0;

/** Only a decay beyond so many of its standard deviations shows the room rather than the head. */
constexpr double likelyDecays = 2.0;

constexpr int tapNoteKind = 1; // (1,1)

int kindOf (const Comparison& c)
{
    return (c.n - 1) * HeadIteration::orders + c.m;
}

/** A small weight mixes in much higher modes. */
constexpr double bandOverNote = 3.6, patchedBandOverNote = 5.5;

/** Probable error in cents by the room, beyond the usual. A room moves a mode's pole as far in decay as in frequency, so an
   unexpected decay shows the error of the frequency.

    @param expected  1/s, the decay
    @param known     1/s, standard deviation of what is expected and of the recording's noise, whose error is counted elsewhere */
double astrayInCents (const Comparison& c, double expected, double known)
{
    const double pole = std::sqrt (std::max (0.0, std::pow (c.decay.rate - expected, 2) - known * known));
    return centsPerShare * pole / modal::units::twoPi / c.frequency;
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
    prior.tail (offsets).setOnes();
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
    constexpr double least = 0.25, most = 5.0;
    const double asStated = misfit;

    for (int pass = 0; pass < passes; ++pass)
    {
        const double told = (posterior.information * posterior.covariance).trace(); // unknowns that the taps decide
        const double freedom = std::max (1.0, static_cast<double> (compared.size()) - told);
        scatter = std::clamp (scatter * std::sqrt (squares / freedom), least, most);
        solveStep();
        takeStep (1.0);
        observe (later());

        if (compared.empty())
            return;
    }

    solveStep();
    misfit = asStated;
}

void HeadIteration::refineLugs()
{
    usesSecondKind = true;
    observe (later());
    solveStep();
    state.lugs += (posterior.mean - travelled).segment (HeadState::others, state.lugs.size());
}

double HeadIteration::recognised() const
{
    const auto all = std::max ({ 1, expected, static_cast<int> (compared.size()) });
    return explained * likely / all;
}

Estimate HeadIteration::losses() const
{
    // The taps of a kind of mode have its decay in common.
    std::array<std::vector<const HeardDecay*>, offsets> kinds;
    std::vector<HeardDecay> heard;

    for (const auto& c : compared)
        kinds[static_cast<std::size_t> (kindOf (c))].push_back (&c.decay);

    for (auto& kind : kinds)
        if (! kind.empty())
        {
            const auto middle = kind.begin() + static_cast<std::ptrdiff_t> (kind.size() / 2);
            std::nth_element (kind.begin(), middle, kind.end(),
                              [] (const HeardDecay* a, const HeardDecay* b) { return a->rate < b->rate; });
            heard.push_back (**middle);
        }

    return lossRatioOf (heard, setup.decayError);
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
        observe (pass == 0 ? std::max (firstWindow, firstDeviations * setup.modelError) : later());

        if (compared.empty())
            return;

        solveStep();

        if (takeStep (longestStep) < settled)
            break;
    }

    observe (later());

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
        auto one = compareTap (setup, model, *tap, window);
        expected += one.expected;
        explained += one.explained / static_cast<double> (taps.size());

        for (auto& comparison : one.comparisons)
            if (comparison.n == 1 || usesSecondKind)
                compared.push_back (std::move (comparison));
    }
}

double HeadIteration::later() const
{
    return std::max (laterWindow, laterDeviations * setup.modelError);
}

/** How far each kind of mode may lie off: the model's error, correlated between neighbours, and the room's, which all taps of a
    kind share. */
void HeadIteration::setOffsets (double losses)
{
    std::array<std::vector<double>, offsets> rooms, rates;
    std::array<modal::Mode, offsets> kinds{};
    kinds[tapNoteKind].frequency = modal::tapNote (setup.drum, setup.side, state.tension);

    for (const auto& c : compared)
    {
        const auto kind = static_cast<std::size_t> (kindOf (c));
        const double predicted = c.decay.rateWith (losses);
        rooms[kind].push_back (std::hypot (
            centsPerShare * roomErrorOf (c.decay.rate) / c.frequency,
            astrayInCents (c, predicted, std::hypot (c.decay.error, predicted * std::expm1 (likelyDecays * setup.decayError)))));
        rates[kind].push_back (c.decay.rate);
        kinds[kind].frequency = c.frequency;
    }

    // The taps of a kind have its decay in common, whatever it is.
    for (auto& c : compared)
        c.astray = astrayInCents (c, median (rates[static_cast<std::size_t> (kindOf (c))]), c.decay.error);

    std::vector<modal::Mode> heard;
    std::vector<Eigen::Index> places;

    for (int kind = 0; kind < offsets; ++kind)
        if (auto mode = kinds[static_cast<std::size_t> (kind)]; mode.frequency > 0.0)
        {
            mode.m = kind % orders;
            mode.n = 1 + kind / orders;
            mode.shares.batter = 1.0;
            heard.push_back (mode);
            places.push_back (kind);
        }

    const auto count = static_cast<Eigen::Index> (heard.size());
    Eigen::VectorXd error (count), room = Eigen::VectorXd::Zero (count);

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto kind = static_cast<std::size_t> (places[static_cast<std::size_t> (i)]);
        error[i] = kind < orders ? setup.modelError : std::max (secondKindError, setup.modelError);

        if (! rooms[kind].empty())
            room[i] = median (rooms[kind]);
    }

    const Eigen::MatrixXd model = error.asDiagonal() * errorCorrelation (heard) * error.asDiagonal();
    Eigen::MatrixXd whole = model;
    whole.diagonal() += room.cwiseAbs2();
    const Eigen::MatrixXd root = whole.llt().matrixL();
    offsetRoot.setZero (offsets, offsets);

    // The (1,1)'s own part, given all offsets: the conditional mean and variance of a normal distribution.
    const auto note = std::find (places.begin(), places.end(), tapNoteKind) - places.begin();
    const Eigen::VectorXd byRoot = root.triangularView<Eigen::Lower>().solve (model.col (note));
    noteByOffset.setZero (offsets);

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto place = places[static_cast<std::size_t> (i)];
        noteByOffset[place] = byRoot[i];

        for (Eigen::Index j = 0; j <= i; ++j)
            offsetRoot (place, places[static_cast<std::size_t> (j)]) = root (i, j);
    }

    noteApart = std::sqrt (std::max (0.0, model (note, note) - byRoot.squaredNorm()));
}

Eigen::VectorXd HeadIteration::gradientOfOffset() const
{
    Eigen::VectorXd gradient = Eigen::VectorXd::Zero (prior.size());
    gradient.tail (offsets) = noteByOffset;
    return gradient;
}

Estimate HeadIteration::offsetOfTapNote() const
{
    return { gradientOfOffset().dot (posterior.mean), noteApart };
}

/** The posterior of the change since the start, about which the prior is centred. */
void HeadIteration::solveStep()
{
    const auto rows = static_cast<Eigen::Index> (compared.size());
    const auto parameters = state.parameters();
    Eigen::MatrixXd jacobian = Eigen::MatrixXd::Zero (rows + 1, prior.size());
    Eigen::VectorXd observed = Eigen::VectorXd::Zero (rows + 1), full = Eigen::VectorXd::Ones (rows + 1);
    setOffsets (losses().value);
    likely = 0.0;

    for (Eigen::Index i = 0; i < rows; ++i)
    {
        const auto& c = compared[static_cast<std::size_t> (i)];
        jacobian.row (i).head (parameters) = c.gradient.transpose();
        jacobian.row (i).tail (offsets) = offsetRoot.row (kindOf (c));
        observed[i] = c.cents + c.gradient.dot (travelled.head (parameters));
        likely += 1.0 / (1.0 + std::pow (c.astray / farAstray, 2));
        const double tapError = isPatched ? std::max (patchedTapError, setup.tapError) : setup.tapError;
        full[i] = 1.0 / std::hypot (c.error, c.astray, scatter * std::hypot (tapError, centsPerShare * roomError / c.frequency));
    }

    // The mean of the lugs is zero.
    if (lugs == Lugs::free)
        jacobian.row (rows).segment (HeadState::others, state.lugs.size()).setConstant (1.0e5);

    const auto found = RobustPosterior::of (jacobian, observed, full, prior, rows);
    posterior = found.posterior;
    squares = found.squares;
    cost = squares + posterior.mean.cwiseQuotient (prior).squaredNorm();
    misfit = std::sqrt ((squares + posterior.mean.tail (offsets).squaredNorm()) /
                        static_cast<double> (std::max<Eigen::Index> (rows, 1)));
}

} // namespace fitting
