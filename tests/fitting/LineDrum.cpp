#include "LineDrum.h"

#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Fitting/drum/Model.h"
#include "Modal/Solve.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <random>

namespace synthetic
{

LineDrum::LineDrum (unsigned seed, double modelError, double signalToNoise, Errors errors, Kind kind)
{
    using modal::HeadSide;
    std::mt19937 random (seed);
    std::normal_distribution<double> normal;
    const auto between = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };

    believed.diameter = std::round (between (11.5, 15.49)) * modal::units::inch;
    believed.depth = between (4.0, 8.0) * modal::units::inch;
    believed.batter.plyThickness = between (7.0, 12.0) * modal::units::mil;
    believed.resonant.plyThickness = between (2.5, 4.0) * modal::units::mil;

    if (kind == Kind::tom)
    {
        believed.diameter = std::round (between (7.5, 18.49)) * modal::units::inch;
        believed.depth = between (0.6, 0.9) * believed.diameter;
        believed.resonant.plyThickness = between (7.0, 12.0) * modal::units::mil;
    }

    built = fitting::withHeadMass (believed, HeadSide::batter, 1.0 + 0.03 * normal (random));
    built = fitting::withHeadMass (built, HeadSide::resonant, 1.0 + 0.03 * normal (random));

    // Both tap notes as drums have them: the batter from E3 to E4, the resonant head 2 semitones below to 9 above.
    const auto tensionFor = [&] (HeadSide side, double note)
    {
        double low = 50.0, high = 20000.0;

        while (high / low > 1.0001)
        {
            const double middle = std::sqrt (low * high);
            (modal::tapNote (built, side, middle) < note ? low : high) = middle;
        }

        return low;
    };
    const double lowest = kind == Kind::snare ? 165.0 : 130.0 * 14.0 * modal::units::inch / believed.diameter;
    const double note = lowest * std::exp2 (between (0.0, 1.0));
    tensions = { tensionFor (HeadSide::batter, note),
                 tensionFor (HeadSide::resonant, note * std::exp2 (between (-2.0, 9.0) / 12.0)) };

    constexpr double highest = 1200.0; // Hz
    constexpr int orders = 9;
    const auto modes = fitting::DrumModel (built, highest, orders).modesAt (tensions.batter, tensions.resonant);
    const auto count = static_cast<Eigen::Index> (modes.size());
    std::vector<modal::Mode> plain;
    double loudest = 0.0;

    for (const auto& mode : modes)
    {
        plain.push_back (mode.mode);
        loudest = std::max (loudest, mode.audibility);
    }

    const Eigen::VectorXd drawn = Eigen::VectorXd::NullaryExpr (count, [&] { return normal (random); });
    Eigen::VectorXd off = drawn;

    if (errors == Errors::asAssumed)
        off = fitting::errorCorrelation (plain).llt().matrixL() * drawn;
    else if (errors == Errors::alongPitch)
        for (double slope = normal (random); auto& value : off)
        {
            const auto& mode = plain[static_cast<std::size_t> (&value - off.data())];
            value = std::sqrt (0.5) * (value + slope * std::log2 (mode.frequency / plain.front().frequency) - slope);
        }

    std::vector<std::pair<fitting::Line, Source>> heard;
    const double faintest = std::pow (10.0, -signalToNoise / 20.0) * 3.0,
                 atBest = 0.02 * std::pow (10.0, (40.0 - signalToNoise) / 40.0);

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto& [mode, audibility, gradient] = modes[static_cast<std::size_t> (i)];
        fitting::Line line;
        line.loudness = std::min (1.0, std::pow (audibility / loudest, 2.0) * std::exp (0.7 * normal (random)));

        if (line.loudness < std::max (0.01, faintest))
            continue;

        const double frequency = mode.frequency * std::exp (modelError * off[i] / fitting::centsPerShare);
        line.decay = mode.decay.total() * std::exp (fitting::usualDecayError * std::clamp (normal (random), -2.0, 2.0));
        line.decayError = 0.05 * line.decay;
        line.error = std::hypot (atBest / std::sqrt (line.loudness), 0.0);
        const double room = 0.1 * line.decay / modal::units::twoPi; // Hz
        line.frequency = frequency + std::hypot (line.error, room) * normal (random);
        line.strikes = 6;
        Source source{ mode.m, 0, line.frequency / mode.frequency };

        for (Eigen::Index below = 0; below < i; ++below)
            source.place += modes[static_cast<std::size_t> (below)].mode.m == mode.m ? 1u : 0u;

        // A pair that uneven lugs split is heard as two now and then.
        if (mode.m > 0 && between (0.0, 1.0) < 0.3)
        {
            auto partner = line;
            partner.frequency *= std::exp (between (2.0, 8.0) / fitting::centsPerShare);
            auto itsSource = source;
            itsSource.ratio *= partner.frequency / line.frequency;
            heard.emplace_back (partner, itsSource);
        }

        heard.emplace_back (line, source);
    }

    // What belongs to the room or to something that rattles.
    for (int extra = static_cast<int> (between (0.0, 3.0)); extra > 0; --extra)
        heard.emplace_back (fitting::Line{ .frequency = between (120.0, 1000.0),
                                           .error = 0.3,
                                           .decay = between (5.0, 25.0),
                                           .decayError = 1.0,
                                           .loudness = between (0.01, 0.1),
                                           .strikes = 3 },
                            Source{});

    std::sort (heard.begin(), heard.end(), [] (const auto& a, const auto& b) { return a.first.frequency < b.first.frequency; });

    for (const auto& [line, source] : heard)
    {
        lines.push_back (line);
        sources.push_back (source);
    }
}

std::vector<fitting::Line> LineDrum::linesAt (const modal::Tensions& others) const
{
    constexpr double highest = 1500.0; // Hz
    constexpr int orders = 9;
    Frequencies frequencies (orders);

    for (const auto& [mode, audibility, gradient] :
         fitting::DrumModel (built, highest, orders).modesAt (others.batter, others.resonant))
        frequencies[static_cast<std::size_t> (mode.m)].push_back (mode.frequency);

    return linesOf (frequencies);
}

std::vector<fitting::Line> LineDrum::linesWithWeight (double mass) const
{
    constexpr int orders = 9;
    auto weighted = built;
    weighted.muffling.push_back ({ .head = modal::HeadSide::batter, .size = 0.02, .distance = 0.0, .mass = mass });
    Frequencies frequencies (orders);

    for (const auto& mode : modal::solve (weighted, tensions, { .highestFrequency = 2500.0 }).modes)
        if (! mode.isAirMode && mode.parity == modal::Parity::cosine && mode.m < orders)
            frequencies[static_cast<std::size_t> (mode.m)].push_back (mode.frequency);

    return linesOf (frequencies);
}

std::vector<fitting::Line> LineDrum::linesOf (const Frequencies& frequencies) const
{
    std::mt19937 random (static_cast<unsigned> (lines.size()));
    std::normal_distribution<double> normal;
    auto moved = lines;

    for (std::size_t i = 0; i < lines.size(); ++i)
        if (const auto& [m, place, ratio] = sources[i]; m >= 0 && place < frequencies[static_cast<std::size_t> (m)].size())
            moved[i].frequency = ratio * frequencies[static_cast<std::size_t> (m)][place] + moved[i].error * normal (random);

    std::sort (moved.begin(), moved.end(), [] (const auto& a, const auto& b) { return a.frequency < b.frequency; });
    return moved;
}

} // namespace synthetic
