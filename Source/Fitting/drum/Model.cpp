#include "Model.h"

#include "Fitting/Partial.h"
#include "Modal/Units.h"
#include "Modal/modes/OrderModes.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

constexpr int functions = 8;
constexpr double wavesOverBand = 2.0;
constexpr double fromBelow = 0.3; // loudness of the resonant head at a microphone above the batter
constexpr double even = 0.5;      // exponent, for unknown places of strike and microphone

/** Derivatives of ω² by the state's logarithms, over 2ω². */
DrumState gradientOf (const modal::OrderMode& found, const modal::OrderProblem& problem, const modal::DrumSpec& drum,
                      const modal::Tensions& tensions)
{
    const auto stretch = problem.stretch.array();
    const double square = std::pow (found.mode.angularFrequency(), 2);
    DrumState slope;
    slope << tensions.batter * (found.batter.array().square() * stretch).sum(),
        tensions.resonant * (found.resonant.array().square() * stretch).sum(),
        -square * drum.batter.baseDensity() * found.batter.squaredNorm(),
        -square * drum.resonant.baseDensity() * found.resonant.squaredNorm();
    return slope / (2.0 * square);
}

} // namespace

DrumModel::DrumModel (const modal::DrumSpec& whole, double highest, int orders) : drum (whole), highestFrequency (highest)
{
    for (int m = 0; m < orders; ++m)
        problems.push_back (modal::makeOrderProblem (m, functions, drum, wavesOverBand * highestFrequency));
}

std::vector<ExpectedMode> DrumModel::modesAt (double batterTension, double resonantTension) const
{
    const modal::Tensions tensions{ batterTension, resonantTension };
    std::vector<ExpectedMode> expected;
    double sum = 0.0;

    for (const auto& problem : problems)
        for (const auto& found : modal::modesOfOrder (problem, drum, tensions, highestFrequency))
        {
            if (found.mode.isAirMode)
                continue;

            const auto& shares = found.mode.shares;
            const double loudness = (shares.batter + fromBelow * shares.resonant) *
                                    std::exp (-Partial::settled * found.mode.decay.total()) / found.mode.frequency;
            expected.push_back ({ found.mode, std::pow (loudness, even), gradientOf (found, problem, drum, tensions) });
            sum += expected.back().audibility;
        }

    for (auto& mode : expected)
        mode.audibility /= sum;

    std::sort (expected.begin(), expected.end(),
               [] (const ExpectedMode& a, const ExpectedMode& b) { return a.mode.frequency < b.mode.frequency; });
    return expected;
}

} // namespace fitting
