#include "Added.h"

#include "Fitting/RodResponse.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/Statistics.h"
#include "Modal/Units.h"
#include "Modal/mathematics/Bessel.h"
#include "Modal/modes/OrderModes.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

/** A line of the first recording, and where it should be in the second. */
struct Moved
{
    double frequency = 0.0; ///< Hz
    double error = 0.0;     ///< cents, of how far it has moved
};

constexpr double shareOfShift = 0.15; // error of a shift: derivatives, the air's load; an estimate, no source

/** The lines of the first recording, those with a mode moved by `shareOf` it (ln), the others by `unnamed`. */
template <typename ShareOf>
std::vector<Moved> movedLines (const DrumIteration& fit, ShareOf shareOf, Moved unnamed)
{
    std::vector<Moved> moved;

    for (const auto& line : fit.heard())
    {
        const auto named =
            std::find_if (fit.assigned.begin(), fit.assigned.end(), [&] (const auto& one) { return one.line == &line; });

        if (named == fit.assigned.end())
        {
            moved.push_back ({ line.frequency * unnamed.frequency, unnamed.error });
            continue;
        }

        const double share = shareOf (*named);
        moved.push_back ({ line.frequency * std::exp (share), shareOfShift * centsPerShare * share });
    }

    return moved;
}

/** Each line comes from one of the moved, or in one case of five from a mode that the first recording did not show. */
double evidenceOf (const std::vector<Line>& lines, const std::vector<Moved>& moved)
{
    constexpr double unseen = 0.2, range = 5000.0; // cents over which those are spread
    constexpr double again = 3.0;                  // cents, of a line that is heard again; both are estimates, no source
    double sum = 0.0;

    for (const auto& line : lines)
    {
        double density = 0.0;

        for (const auto& one : moved)
        {
            const double error = std::hypot (again, centsPerShare * line.error / line.frequency, one.error);
            const double off = modal::centsBetween (one.frequency, line.frequency) / error;
            density += std::exp (-0.5 * off * off) / (rootTwoPi * error * static_cast<double> (moved.size()));
        }

        sum += line.weight() * std::log (unseen + (1.0 - unseen) * density * range);
    }

    return sum;
}

/** The rods' response is known within a factor, so the change of tension is too: the mean over what it may be. */
double evidenceOfTurn (const DrumIteration& fit, const TurnedHead& turned)
{
    constexpr int steps = 20;
    constexpr double widest = 2.5; // standard deviations
    const int side = turned.side == modal::HeadSide::batter ? 0 : 1;
    const auto drum = fit.drumOfState();
    const auto& head = side == 0 ? drum.batter : drum.resonant;
    const auto response = usualResponse (head, drum.radius());
    const double usual = turned.turns * response.tensionPerTurn (head, drum.radius(), turned.thread);
    const double tension = std::exp (fit.state[side]);
    double weights = 0.0, most = -1.0e300;
    std::vector<std::pair<double, double>> tried; // ln of the evidence, prior weight

    for (int i = -steps; i <= steps; ++i)
    {
        const double deviation = widest * i / steps;
        const double change = usual * std::exp (response.logError * deviation) / tension;

        if (change < -0.9)
            continue;

        // A line without a mode moves by anything from nothing to what a membrane's own mode does, half of the tension's.
        const double half = 0.25 * std::log1p (change);
        const auto moved = movedLines (fit, [&] (const Assignment& one) { return one.mode.gradient[side] * std::log1p (change); },
                                       { std::exp (half), centsPerShare * half });
        tried.emplace_back (evidenceOf (turned.lines, moved), std::exp (-0.5 * deviation * deviation));
        weights += tried.back().second;
        most = std::max (most, tried.back().first);
    }

    double sum = 0.0;

    for (const auto& [evidence, weight] : tried)
        sum += weight / weights * std::exp (evidence - most);

    return tried.empty() ? 0.0 : most + std::log (sum);
}

struct LoweredMode
{
    double frequency = 0.0, lowered = 0.0; ///< Hz, without and with the weight
};

/** Modes (0,n) with a mass at the centre of the batter head: roots of 1 = ω² m Σ φ²/(ω_k² − ω²), one below each mode, since the
   modes are orthonormal in mass. Other modes are still at the centre. */
std::vector<LoweredMode> loweredModes (const DrumIteration& fit, const WeightedHead& weighted)
{
    constexpr int functions = 16;
    constexpr double highest = 4000.0, cutoff = 8000.0; // Hz
    const auto drum = fit.drumOfState();
    const auto problem = modal::makeOrderProblem (0, functions, drum, cutoff);
    const auto modes = modal::modesOfOrder (problem, drum, { std::exp (fit.state[0]), std::exp (fit.state[1]) }, highest);
    std::vector<double> squares, shapes; // ω², φ² in 1/kg

    for (const auto& mode : modes)
    {
        double shape = 0.0; // mean under the weight

        for (Eigen::Index n = 0; n < mode.batter.size(); ++n)
        {
            const double atRim = problem.zeros[n] * 0.5 * weighted.size / drum.radius();
            const modal::BasisFunction function{ 0, static_cast<int> (n) + 1, modal::Parity::cosine, problem.zeros[n] };
            shape += mode.batter[n] * function.at (0.0, 0.0, drum.radius()) * 2.0 * modal::besselJ (1, atRim) / atRim;
        }

        squares.push_back (std::pow (mode.mode.angularFrequency(), 2));
        shapes.push_back (shape * shape);
    }

    std::vector<LoweredMode> lowered;

    for (std::size_t k = 0; k < modes.size(); ++k)
    {
        double low = k == 0 ? 0.0 : squares[k - 1], high = squares[k];

        for (int halving = 0; halving < 50; ++halving)
        {
            const double middle = 0.5 * (low + high);
            double pull = 0.0;

            for (std::size_t i = 0; i < squares.size(); ++i)
                pull += middle * weighted.mass * shapes[i] / (squares[i] - middle);

            (pull < 1.0 ? low : high) = middle;
        }

        lowered.push_back ({ modes[k].mode.frequency, std::sqrt (low) / modal::units::twoPi });
    }

    return lowered;
}

double evidenceOfWeight (const DrumIteration& fit, const WeightedHead& weighted)
{
    const auto lowered = loweredModes (fit, weighted);
    const auto shareOf = [&] (const Assignment& one)
    {
        const auto far = [&] (const LoweredMode& mode) { return std::abs (mode.frequency - one.mode.mode.frequency); };
        const auto nearest =
            std::min_element (lowered.begin(), lowered.end(), [&] (const auto& a, const auto& b) { return far (a) < far (b); });
        return one.mode.mode.m > 0 || nearest == lowered.end() ? 0.0 : std::log (nearest->lowered / nearest->frequency);
    };

    return evidenceOf (weighted.lines, movedLines (fit, shareOf, { 1.0, 0.0 }));
}

} // namespace

double evidenceOfAdded (const DrumIteration& fit)
{
    const auto& setup = fit.setUp();
    return (setup.turned ? evidenceOfTurn (fit, *setup.turned) : 0.0) +
           (setup.weighted ? evidenceOfWeight (fit, *setup.weighted) : 0.0);
}

} // namespace fitting
