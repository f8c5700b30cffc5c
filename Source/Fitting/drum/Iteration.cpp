#include "Iteration.h"

#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitting
{
namespace
{

constexpr double fromNoise = 0.05; // share of lines from noise
constexpr double range = 5000.0;   // cents over which those are spread
constexpr double decayRatio = 0.5; // spread of ln (decay heard over decay predicted)
constexpr int orders = 9;
constexpr std::array<double, 7> widths{ 40.0, 30.0, 20.0, 12.0, 8.0, 8.0, 8.0 }; // cents, pass by pass
constexpr double pairError = 3.0; // cents: a line of m = 1 lies anywhere between two partners, which uneven lugs split most
constexpr double rootTwoPi = 2.5066283;

/** Probability density a cent of a line under one mode. */
double density (const Line& line, const ExpectedMode& mode, double width)
{
    const double off = modal::centsBetween (mode.mode.frequency, line.frequency) / width;

    if (std::abs (off) > 6.0)
        return 0.0;

    const double slower = std::log (line.decay / mode.mode.decay.total()) / decayRatio;
    return mode.audibility * std::exp (-0.5 * (off * off + slower * slower)) / (rootTwoPi * width);
}

/** Standard deviation in cents of a line about its mode. */
double errorOf (const Line& line, const modal::Mode& mode, double modelError)
{
    const double heard = centsPerShare * std::hypot (line.error, roomTurn * line.decay / modal::units::twoPi) / line.frequency;
    return std::hypot (heard, modelError, mode.m == 1 ? pairError : 0.0);
}

/** Evidence with a width for each line and mode. */
template <typename Width>
double evidenceWith (const std::vector<Line>& lines, const std::vector<ExpectedMode>& modes, Width width)
{
    double sum = 0.0;

    for (const auto& line : lines)
    {
        double all = 0.0;

        for (const auto& mode : modes)
            all += density (line, mode, width (line, mode.mode));

        sum += line.weight() * std::log (fromNoise + (1.0 - fromNoise) * all * range);
    }

    return sum;
}

double highestOf (const std::vector<Line>& lines)
{
    constexpr double above = 1.08;
    return std::clamp (above * lines.back().frequency, 300.0, 1500.0);
}

} // namespace

double evidence (const std::vector<Line>& lines, const std::vector<ExpectedMode>& modes, double width)
{
    return evidenceWith (lines, modes, [width] (const Line&, const modal::Mode&) { return width; });
}

double weightOf (const std::vector<Line>& lines)
{
    double sum = 0.0;

    for (const auto& line : lines)
        sum += line.weight();

    return sum;
}

DrumIteration::DrumIteration (const DrumFitSetup& fitSetup, const std::vector<Line>& heard, double batterTension,
                              double resonantTension)
    : setup (&fitSetup), lines (&heard)
{
    state << std::log (batterTension), std::log (resonantTension), 0.0, 0.0;
    start = state;
    const double mass = std::max (setup->massTolerance, 1.0e-6);
    prior << 1.0, 1.0, mass, mass;
}

bool DrumIteration::run()
{
    try
    {
        for (const double width : widths)
        {
            observe (width);

            if (assigned.size() < 2)
                return false;

            solveStep();
            constexpr double longestStep = 0.15;
            const DrumState move = start + posterior.mean - state;
            state += move * std::min (1.0, longestStep / std::max (move.cwiseAbs().maxCoeff(), 1.0e-12));
        }

        observe (widths.back());
        solveStep();
        return ! assigned.empty();
    }
    catch (const modal::InputError&)
    {
        return false;
    }
}

double DrumIteration::plausibility() const
{
    return closeness - 0.5 * state.tail<2>().cwiseQuotient (prior.tail<2>()).squaredNorm();
}

modal::DrumSpec DrumIteration::drumOfState() const
{
    return withHeadMass (withHeadMass (setup->drum, modal::HeadSide::batter, std::exp (state[2])), modal::HeadSide::resonant,
                         std::exp (state[3]));
}

void DrumIteration::observe (double width)
{
    const auto drum = drumOfState();
    modal::check (drum);
    DrumModel model (drum, highestOf (*lines), orders);
    const auto modes = model.modesAt (std::exp (state[0]), std::exp (state[1]));
    evidence = fitting::evidence (*lines, modes, width);
    closeness = evidenceWith (
        *lines, modes, [this] (const Line& line, const modal::Mode& mode) { return errorOf (line, mode, setup->modelError); });
    assigned.clear();

    for (const auto& line : *lines)
    {
        double all = fromNoise / range, most = 0.0;
        const ExpectedMode* likeliest = nullptr;

        for (const auto& mode : modes)
        {
            const double here = density (line, mode, width);
            all += here;

            if (here > most)
            {
                most = here;
                likeliest = &mode;
            }
        }

        if (likeliest != nullptr && most > 0.5 * all)
            assigned.push_back ({ &line, *likeliest, most / all, modal::centsBetween (likeliest->mode.frequency, line.frequency),
                                  errorOf (line, likeliest->mode, setup->modelError) });
    }
}

/** The posterior of the change since the start, about which the prior is centred. */
void DrumIteration::solveStep()
{
    const auto rows = static_cast<Eigen::Index> (assigned.size());
    Eigen::MatrixXd jacobian (rows, state.size());
    Eigen::VectorXd observed (rows), full (rows);

    for (Eigen::Index i = 0; i < rows; ++i)
    {
        const auto& one = assigned[static_cast<std::size_t> (i)];
        jacobian.row (i) = centsPerShare * one.mode.gradient.transpose();
        observed[i] = one.cents + jacobian.row (i).dot (state - start);
        full[i] = std::sqrt (one.share * one.line->weight()) / one.error;
    }

    const auto found = RobustPosterior::of (jacobian, observed, full, prior, rows);
    posterior = found.posterior;
    misfit = std::sqrt (found.squares / static_cast<double> (std::max<Eigen::Index> (rows, 1)));
}

} // namespace fitting
