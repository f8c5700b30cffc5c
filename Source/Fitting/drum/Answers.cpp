#include "Answers.h"

#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Modal/Tuning.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace fitting
{

using modal::HeadSide;

Estimate tapNoteOf (const DrumIteration& fitted, HeadSide side, const Eigen::Matrix4d& covariance)
{
    constexpr double step = 0.01;
    const auto drum = fitted.drumOfState();
    const int head = side == HeadSide::batter ? 0 : 1;
    const double tension = std::exp (fitted.state[head]);
    const double note = modal::tapNote (drum, side, tension);
    DrumState gradient = DrumState::Zero();
    gradient[head] = std::log (modal::tapNote (drum, side, tension * (1.0 + step)) / note) / std::log1p (step);
    gradient[2 + head] =
        std::log (modal::tapNote (withHeadMass (drum, side, 1.0 + step), side, tension) / note) / std::log1p (step);
    return { note, note * std::sqrt (std::max (0.0, gradient.dot (covariance * gradient))) };
}

namespace
{

bool isSameHead (const modal::HeadConstruction& a, const modal::HeadConstruction& b)
{
    const auto all = [] (const modal::HeadConstruction& h)
    { return std::tie (h.plyThickness, h.plies, h.coatingDensity, h.dotDiameter, h.dotThickness, h.ringWidth, h.ringThickness); };
    return all (a) == all (b);
}

} // namespace

std::vector<DrumAnswer> answersOf (const std::vector<DrumIteration>& fits)
{
    constexpr double sameTension = 0.05; // relative
    constexpr double fewest = 0.02;      // probability
    std::vector<const DrumIteration*> different;
    std::vector<double> weights;
    double sum = 0.0;

    for (const auto& fit : fits)
    {
        const auto isSame = [&] (const DrumIteration* other)
        {
            // As near as their errors let them be, they are one tuning.
            const Eigen::Vector2d apart = (fit.state - other->state).head<2>();
            const Eigen::Vector2d error = other->posterior.covariance.diagonal().head<2>().cwiseSqrt();
            const auto &one = fit.setUp().drum, &second = other->setUp().drum;
            return one.diameter == second.diameter && isSameHead (one.batter, second.batter) &&
                   isSameHead (one.resonant, second.resonant) && (apart.cwiseAbs() - error).maxCoeff() < sameTension;
        };

        if (std::any_of (different.begin(), different.end(), isSame))
            continue;

        weights.push_back (std::exp (fit.weight() - fits.front().weight()));
        different.push_back (&fit);
        sum += weights.back();
    }

    std::vector<DrumAnswer> answers;

    for (std::size_t i = 0; i < different.size(); ++i)
    {
        const auto& fit = *different[i];
        const double probability = (1.0 - noneOfThese) * weights[i] / sum;

        if (probability < fewest && different.size() > 1)
            continue;

        const auto covariance = fit.covariance();
        DrumAnswer answer{ .diameter = fit.drumOfState().diameter, .probability = probability };

        for (const auto side : { HeadSide::batter, HeadSide::resonant })
        {
            if (side == HeadSide::resonant && ! fit.drumOfState().hasResonantHead())
                continue;

            const int head = side == HeadSide::batter ? 0 : 1;
            auto& state = side == HeadSide::batter ? answer.batter : answer.resonant;
            const double tension = std::exp (fit.state[head]);
            state.tension = { tension, tension * std::sqrt (covariance (head, head)) };
            state.tapNote = tapNoteOf (fit, side, covariance);
            state.construction = side == HeadSide::batter ? fit.setUp().drum.batter : fit.setUp().drum.resonant;
        }

        answers.push_back (answer);
    }

    return answers;
}

std::pair<double, double> tensionRange (const std::vector<DrumAnswer>& answers, HeadSide side)
{
    constexpr double tail = 0.025;
    double low = 1.0e9, high = 0.0;
    const auto headOf = [side] (const DrumAnswer& answer) { return side == HeadSide::batter ? answer.batter : answer.resonant; };

    for (const auto& answer : answers)
    {
        const auto [tension, error] = headOf (answer).tension;
        low = std::min (low, tension * std::exp (-5.0 * error / tension));
        high = std::max (high, tension * std::exp (5.0 * error / tension));
    }

    const auto quantile = [&] (double share)
    {
        double from = std::log (low), to = std::log (high);

        while (to - from > 1.0e-5)
        {
            const double middle = 0.5 * (from + to);
            double below = 0.0, all = 0.0;

            for (const auto& answer : answers)
            {
                const auto [tension, error] = headOf (answer).tension;
                const double off = (middle - std::log (tension)) / (error / tension);
                below += answer.probability * 0.5 * std::erfc (-off / std::sqrt (2.0));
                all += answer.probability;
            }

            (below < share * all ? from : to) = middle;
        }

        return std::exp (0.5 * (from + to));
    };

    return { quantile (tail), quantile (1.0 - tail) };
}

} // namespace fitting
