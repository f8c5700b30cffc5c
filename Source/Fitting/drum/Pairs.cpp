#include "Pairs.h"

#include "Fitting/common/Errors.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/HeadMatrices.h"
#include "Modal/modes/OrderModes.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

constexpr int mostDiameters = 3, functionsPerOrder = 8;
constexpr double reachOfPair = 25.0;  // cents from a mode to its partners
constexpr double sameDecay = 0.5;     // |ln| of the ratio of decays
constexpr double fewestWeight = 0.25; // of a line
constexpr double faintPartner = 0.2;  // of the louder one
constexpr double resolved = 0.5;      // of a line's half width: closer partners are not resolved
constexpr double mostly = 0.8;        // of both heads' slopes
constexpr double mostTold = 100.0;    // cents: a wider limit is useless

/** Split of ω² by a harmonic of unit tension at the rim, one row and column per radial function. */
Eigen::MatrixXd waveOnPair (int m, const Eigen::VectorXd& zeros, double radius)
{
    const int p = 2 * m;
    std::vector<double> rim;

    for (int k = 0; k < 4 * p; ++k) // this many lugs hold no other harmonic
        rim.push_back (std::cos (0.5 * modal::units::pi * k));

    std::vector<modal::BasisFunction> basis;

    for (const auto parity : { modal::Parity::cosine, modal::Parity::sine })
        for (Eigen::Index n = 0; n < zeros.size(); ++n)
            basis.push_back ({ m, static_cast<int> (n) + 1, parity, zeros[n] });

    const Eigen::MatrixXd both = modal::unevenStiffness (basis, modal::harmonicsOf (rim), radius);
    return both.topLeftCorner (zeros.size(), zeros.size()) - both.bottomRightCorner (zeros.size(), zeros.size());
}

/** The one or two lines that may be partners of a mode, loudest first. */
std::vector<const Line*> partnersOf (const modal::Mode& mode, const std::vector<Line>& lines)
{
    std::vector<const Line*> found;

    for (const auto& line : lines)
        if (std::abs (modal::centsBetween (mode.frequency, line.frequency)) < reachOfPair && line.weight() > fewestWeight &&
            std::abs (std::log (line.decay / mode.decay.total())) < sameDecay)
            found.push_back (&line);

    std::sort (found.begin(), found.end(), [] (const Line* a, const Line* b) { return a->loudness > b->loudness; });

    const bool isPair = found.size() > 1 && found[1]->loudness > faintPartner * found[0]->loudness;

    while (found.size() > (isPair ? 2 : 1))
        found.pop_back();

    return found;
}

/** Hz. A room turns one partner's phase against the other's. */
double errorOf (const Line& line)
{
    return std::hypot (line.error, 2.0 * roomTurn * line.decay / modal::units::twoPi);
}

} // namespace

std::vector<PartedPair> pairsHeard (const modal::DrumSpec& drum, const modal::Tensions& tensions, const std::vector<Line>& lines)
{
    std::vector<PartedPair> pairs;

    if (lines.empty())
        return pairs;

    const double highest = 1.02 * lines.back().frequency;

    for (int m = 1; m <= mostDiameters; ++m)
    {
        const auto problem = modal::makeOrderProblem (m, functionsPerOrder, drum, 2.0 * highest);
        const auto wave = waveOnPair (m, problem.zeros, drum.radius());

        for (const auto& found : modal::modesOfOrder (problem, drum, tensions, highest))
        {
            const auto heard = partnersOf (found.mode, lines);

            if (found.mode.isAirMode || heard.empty())
                continue;

            const double twice = 2.0 * std::pow (found.mode.angularFrequency(), 2);
            PartedPair pair{ .mode = found.mode,
                             .byBatter = std::abs (found.batter.dot (wave * found.batter)) * tensions.batter / twice,
                             .byResonant = std::abs (found.resonant.dot (wave * found.resonant)) * tensions.resonant / twice };

            if (heard.size() == 2)
            {
                pair.gap = std::abs (heard[0]->frequency - heard[1]->frequency);
                pair.error = std::hypot (errorOf (*heard[0]), errorOf (*heard[1]));
            }
            else
            {
                pair.error = std::hypot (errorOf (*heard[0]), resolved * heard[0]->decay / modal::units::twoPi);
            }

            pairs.push_back (pair);
        }
    }

    return pairs;
}

std::vector<LugWave> lugWavesOf (const modal::DrumSpec& drum, modal::HeadSide side, double tension,
                                 const std::vector<PartedPair>& pairs)
{
    std::vector<LugWave> waves;
    const double centsPerShareOfTension = 100.0 / std::log1p (modal::semitoneTension (drum, side, tension));

    for (int m = 1; m <= mostDiameters && 4 * m <= drum.lugs; ++m) // fewer lugs hold no such harmonic
    {
        double weights = 0.0, sum = 0.0, limit = 1.0e9;

        for (const auto& pair : pairs)
        {
            const double own = side == modal::HeadSide::batter ? pair.byBatter : pair.byResonant;

            if (pair.mode.m != m || own < mostly * (pair.byBatter + pair.byResonant))
                continue;

            const double perCent = own * pair.mode.frequency / centsPerShareOfTension; // Hz
            limit = std::min (limit, pair.error / perCent);

            if (pair.gap > 0.0)
            {
                const double weight = std::pow (perCent / pair.error, 2);
                weights += weight;
                sum += weight * pair.gap / perCent;
            }
        }

        // An unresolved pair gives an upper limit only.
        if (weights > 0.0)
            waves.push_back ({ 2 * m, { sum / weights, 1.0 / std::sqrt (weights) } });
        else if (limit < mostTold)
            waves.push_back ({ 2 * m, { 0.0, limit } });
    }

    return waves;
}

} // namespace fitting
