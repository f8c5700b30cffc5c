#include "LeftOut.h"

#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/mathematics/Bessel.h"
#include "Modal/pitch/Note.h"
#include "common/HeadMass.h"
#include "drum/Model.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace fitting
{
namespace
{

constexpr double near = Prediction::near;
constexpr int orders = 9, circles = 4;

/** Frequencies are in Hz, ascending. */
Prediction predictionOf (const std::vector<double>& modes, const std::vector<Line>& lines)
{
    Prediction found{ .modes = modes };
    double all = 0.0, explained = 0.0, squares = 0.0, covered = 0.0;

    for (const auto& line : lines)
    {
        double least = 1.0e9;

        for (const double mode : modes)
            least = std::min (least, std::abs (modal::centsBetween (mode, line.frequency)));

        all += line.weight();

        if (least < near)
        {
            explained += line.weight();
            squares += line.weight() * least * least;
        }
    }

    // The share of the lines' span in cents that lies near a mode.
    const double low = lines.front().frequency, span = std::max (1.0, modal::centsBetween (low, lines.back().frequency));
    double reached = 0.0;

    for (const double mode : modes)
    {
        const double at = modal::centsBetween (low, mode);
        const double from = std::clamp (std::max (at - near, reached), 0.0, span), to = std::clamp (at + near, 0.0, span);
        covered += std::max (0.0, to - from);
        reached = std::max (reached, at + near);
    }

    found.share = all > 0.0 ? explained / all : 0.0;
    found.cents = explained > 0.0 ? std::sqrt (squares / explained) : 0.0;
    found.byChance = covered / span;
    return found;
}

std::vector<double> modelModes (const modal::DrumSpec& drum, double batter, double resonant, double highest)
{
    std::vector<double> modes;

    for (const auto& mode : DrumModel (drum, highest, orders).modesAt (batter, resonant))
        modes.push_back (mode.mode.frequency);

    return modes;
}

/** Membranes without air. */
std::vector<double> vacuumModes (const modal::DrumSpec& drum, double batter, double resonant, double highest)
{
    std::vector<double> modes;

    for (int m = 0; m < orders; ++m)
        for (const double zero : modal::besselZeros (m, circles))
            for (const double speed :
                 { std::sqrt (batter / drum.batter.baseDensity()), std::sqrt (resonant / drum.resonant.baseDensity()) })
                if (const double frequency = zero * speed / (modal::units::twoPi * drum.radius()); frequency < highest)
                    modes.push_back (frequency);

    std::sort (modes.begin(), modes.end());
    return modes;
}

} // namespace

LeftOutCheck checkLeftOut (const DrumFitSetup& setup, const std::vector<Line>& used, int strikes,
                           const std::vector<Line>& leftOut)
{
    LeftOutCheck check;
    const auto lines = tellingLines (leftOut);
    const auto fit = fitDrum (setup, used, strikes);
    check.linesLeftOut = lines;

    if (lines.empty())
        return check;

    constexpr double above = 1.08;
    const double highest = std::clamp (above * lines.back().frequency, 300.0, 1500.0);
    const double batterYield = modal::yieldTension (setup.drum.batter), resonantYield = modal::yieldTension (setup.drum.resonant);
    check.isFitted = fit.isPossible;

    if (fit.isPossible)
    {
        auto drum = setup.drum;
        const auto& best = fit.answers.front();
        drum.diameter = best.diameter;
        drum.batter = best.batter.construction;

        if (best.resonant.tension.value > 0.0)
            drum.resonant = best.resonant.construction;
        else
            drum.bottom = modal::Bottom::closed;

        drum = withHeadMass (drum, modal::HeadSide::batter, fit.batter.massRatio.value);
        check.model = predictionOf (modelModes (drum, best.batter.tension.value, best.resonant.tension.value, highest), lines);
    }

    // The tensions at which membranes in vacuo explain most of the strikes used, more by share than by cents.
    constexpr int steps = 60;
    constexpr double slackest = 0.01;
    const auto tensionAt = [] (double yield, int step)
    { return yield * std::pow (slackest, 1.0 - static_cast<double> (step) / (steps - 1)); };
    const auto seen = tellingLines (used);
    double most = -1.0;

    for (int b = 0; b < steps && ! seen.empty(); ++b)
        for (int r = 0; r < steps; ++r)
        {
            const auto modes = vacuumModes (setup.drum, tensionAt (batterYield, b), tensionAt (resonantYield, r), highest);
            const auto on = predictionOf (modes, seen);

            if (const double score = on.share - on.byChance - 0.1 * on.cents / near; score > most)
            {
                most = score;
                check.vacuum = predictionOf (modes, lines);
            }
        }

    constexpr int drawn = 20;
    std::mt19937 random (1);
    std::uniform_real_distribution<double> anywhere (0.3, 0.8); // of the way from slackest to yield on a logarithmic scale
    double squares = 0.0;

    for (int i = 0; i < drawn; ++i)
    {
        const double batter = batterYield * std::pow (slackest, 1.0 - anywhere (random));
        const double resonant = resonantYield * std::pow (slackest, 1.0 - anywhere (random));
        const auto one = predictionOf (modelModes (setup.drum, batter, resonant, highest), lines);

        if (i == 0)
            check.random.modes = one.modes;

        check.random.share += one.share / drawn;
        check.random.byChance += one.byChance / drawn;
        squares += one.cents * one.cents / drawn;
    }

    check.random.cents = std::sqrt (squares);
    return check;
}

} // namespace fitting
