#include "PlayLike.h"

#include "Engine/Drum.h"
#include "Engine/PlayedBand.h"
#include "Listening/GainRise.h"
#include "Score/UsualMix.h"

#include <Eigen/QR>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

namespace playlike
{
namespace
{

using Eigen::Index;

constexpr double lowestRate = 22050.0; // Hz, of the engine
constexpr double seconds = 1.5;        // that the model is heard
constexpr int block = 256;             // frames

/** Both numbers are looked for on scales from 0 to 1 on which every value is as likely beforehand. */
constexpr int gelSteps = 5, gelStepsWithWires = 3, wireSteps = 4;
constexpr Index finePoints = 61;

constexpr double mostGel = 12.0e-3, knee = 1.5e-3; // kg: below the knee the scale is linear, above logarithmic

double gelAt (double scale)
{
    return knee * (std::exp (scale * std::log (1.0 + mostGel / knee)) - 1.0);
}

/** Wires as presets have them: loose, usual, tight. */
struct StrainerSetting
{
    double tension, press; ///< N a strand, m
};
constexpr modal::WireSpec usualWires;
constexpr std::array<StrainerSetting, 3> strainer{
    { { 0.55, -0.1e-3 }, { usualWires.strandTension, usualWires.pressDepth }, { 6.0, 0.3e-3 } }
};

StrainerSetting strainerAt (double scale)
{
    const double at = std::clamp (scale, 0.0, 1.0) * 2.0;
    const auto below = std::min<std::size_t> (1, static_cast<std::size_t> (at));
    const double part = at - static_cast<double> (below);
    const auto& from = strainer[below];
    const auto& to = strainer[below + 1];
    return { from.tension * std::pow (to.tension / from.tension, part), from.press + part * (to.press - from.press) };
}

modal::DrumSpec withGel (modal::DrumSpec drum, double mass)
{
    drum.muffling.clear();

    if (mass > 0.0)
    {
        modal::MufflingItem item;
        item.size *= std::sqrt (mass / item.mass); // of the same thickness
        item.mass = mass;
        item.distance = std::min (item.distance, 0.67 * drum.radius());
        drum.muffling.push_back (item);
    }

    return drum;
}

/** Mean of ln frequency of the lowest modes that move the heads. */
double lowestNotes (const modal::DrumModes& solved)
{
    constexpr int notes = 4;
    double sum = 0.0;
    int count = 0;

    for (const auto& mode : solved.modes)
        if (! mode.isAirMode && count < notes)
        {
            sum += std::log (mode.frequency);
            ++count;
        }

    return count > 0 ? sum / count : 0.0;
}

/** Gel is heavy: the batter head is tightened until its notes are back. */
modal::Tensions tightenedFor (const modal::DrumSpec& bare, const modal::DrumSpec& muffled, modal::Tensions tensions)
{
    constexpr double changeByTension = 0.25; // of ln frequency by ln tension: both heads move in these modes
    constexpr int rounds = 3;
    const modal::SolveOptions band{ .highestFrequency = 800.0 };

    if (muffled.muffling.empty())
        return tensions;

    const double wanted = lowestNotes (modal::solve (bare, tensions, band));
    const modal::DrumSolver solver (muffled, band);

    for (int round = 0; round < rounds; ++round)
        tensions.batter *= std::exp ((wanted - lowestNotes (solver.solve (tensions))) / changeByTension);

    return tensions;
}

struct Played
{
    modal::DrumSpec drum;
    modal::Tensions tensions;
    modal::Fittings fittings;
    listening::Recording sound; ///< the microphones' usual mix
    OctaveFalls falls;          ///< as heard by the one above the drum, where most record
};

/** The drum with one amount of gel; plays it with any wires. */
class MuffledDrum
{
public:
    MuffledDrum (const KnownDrum& known, double gel, double rate)
        : drum (withGel (known.drum, gel)),
          tensions (known.isFitted ? tightenedFor (withGel (known.drum, 0.0), drum, known.tensions) : known.tensions),
          fittings (known.fittings), sampleRate (rate)
    {
        modal::SolveOptions options;
        constexpr double playedModes = 250.0; // above them the engine has the sound by statistics
        options.highestFrequency = std::min (engine::playedBand (drum, tensions, playedModes), 0.4 * rate);
        modes = modal::solve (drum, tensions, options);
    }

    Played play (const modal::WireSpec& wires) const
    {
        auto with = fittings;
        with.wires = wires;
        auto setup = engine::setUp (drum, tensions, modes, with);
        setup.microphones = engine::defaultMicrophones (drum.depth);
        setup.sampleRate = sampleRate;
        engine::Drum player (std::make_shared<const engine::DrumModel> (setup));
        player.strike (engine::Stroke{ .position = 0.3 });
        const score::UsualMix mix;
        std::array<std::array<float, block>, score::UsualMix::microphones> heard;
        std::array<float*, score::UsualMix::microphones> outputs{ heard[0].data(), heard[1].data(), heard[2].data() };
        std::array<float, block> left, right;
        listening::Recording sound{ sampleRate, {} }, above = sound;

        while (sound.seconds() < seconds)
        {
            player.process (outputs.data(), block);
            mix.mix (outputs.data(), left.data(), right.data(), block);

            for (std::size_t i = 0; i < block; ++i)
            {
                sound.samples.push_back (0.5 * (static_cast<double> (left[i]) + static_cast<double> (right[i])));
                above.samples.push_back (static_cast<double> (heard[0][i]));
            }
        }

        auto falls = octaveFallsOf (above, 0.0, seconds, std::nullopt);
        return { drum, tensions, with, std::move (sound), falls };
    }

private:
    modal::DrumSpec drum;
    modal::Tensions tensions;
    modal::Fittings fittings;
    double sampleRate;
    modal::DrumModes modes;
};

/** A number of the strokes over the scales of gel and wires: interpolated between amounts of gel, and besides a parabola over the
    strainer's scale that is the same for all amounts, since strands rattle by chance. */
class OverScales
{
public:
    OverScales (int gels, int wires) : values (Eigen::MatrixXd::Zero (gels, wires)) {}

    void set (int gel, int wire, std::optional<double> value)
    {
        isKnown = isKnown && value.has_value();
        values (gel, wire) = value.value_or (0.0);
    }

    /** Mean over the wires; nothing if one of the strokes did not give the number. */
    std::optional<double> at (double gel) const
    {
        if (! isKnown)
            return std::nullopt;

        const double place = gel * static_cast<double> (values.rows() - 1);
        const Index below = std::clamp<Index> (static_cast<Index> (place), 0, std::max<Index> (0, values.rows() - 2));
        const double part = place - static_cast<double> (below);
        return (1.0 - part) * values.row (below).mean() + part * values.row (std::min (below + 1, values.rows() - 1)).mean();
    }

    std::optional<double> at (double gel, double wire) const
    {
        constexpr Index unknowns = 3;
        auto value = at (gel);

        if (value && values.cols() > unknowns)
        {
            const Eigen::VectorXd scale = Eigen::VectorXd::LinSpaced (values.cols(), 0.0, 1.0);
            Eigen::MatrixXd powers (values.cols(), unknowns);
            powers << Eigen::VectorXd::Ones (values.cols()), scale, scale.cwiseAbs2();
            const Eigen::VectorXd byWires = values.colwise().mean().transpose().array() - values.mean();
            *value += Eigen::RowVector3d (1.0, wire, wire * wire).dot (powers.householderQr().solve (byWires));
        }

        return value;
    }

private:
    Eigen::MatrixXd values; ///< gel × wires
    bool isKnown = true;
};

std::optional<double> lnOf (const std::optional<double>& value)
{
    return value ? std::optional (std::log (*value)) : std::nullopt;
}

/** What the strokes give over the scales. */
struct PlayedStrokes
{
    PlayedStrokes (int gels, int wires) : rings (octaves.size(), { gels, wires }), centres (rings) {}

    void set (int gel, int wire, const OctaveFalls& falls)
    {
        for (std::size_t i = 0; i < octaves.size(); ++i)
        {
            rings[i].set (gel, wire, lnOf (falls[i].t60));
            centres[i].set (gel, wire, lnOf (falls[i].centreTime));
        }
    }

    std::vector<OverScales> rings, centres; ///< of each octave: ln T60, ln centre time
};

/** −2 ln of the probability of a residue in standard deviations, with the wide tails of Student's distribution (4 degrees of
    freedom): one octave may be quite unlike the model. */
double cost (double residue)
{
    return 5.0 * std::log1p (residue * residue / 4.0);
}

/** −2 ln of the probability of the recorded stroke: T60 of the octaves of modes tells the gel, the centre time of those above the
    strainer. Wires take from the lower octaves as they happen to rattle, whatever their tension. */
double costOf (const OctaveFalls& recorded, const PlayedStrokes& played, double gel, double wire, bool hasWires)
{
    // By how much ln T60 of an octave differs for other reasons. Played at 0.1 to 0.6 of the radius the octave from 125 Hz
    // differs by 0.05, that from 250 Hz by 0.15, those above by 0.5.
    constexpr std::size_t wireOctave = 4; // from 2 kHz
    constexpr std::array<double, wireOctave> ringErrors{ 0.15, 0.25, 0.5, 0.5 };
    constexpr double errorOfRattle = 0.25; // on top, if wires strike
    // Of ln centre time. Over 20 drums struck at 0.05 to 0.6 of the radius at 1 to 4 m/s in rooms with up to a fifth of the
    // energy it scatters by 0.15 and a room adds up to 0.1, the same in all octaves; from loose to tight wires it falls by 0.75.
    constexpr double centreError = 0.2;
    double sum = 0.0, later = 0.0;
    int wireOctaves = 0;

    for (std::size_t i = 0; i < wireOctave; ++i)
        if (const auto heard = lnOf (recorded[i].t60), expected = played.rings[i].at (gel); heard && expected)
            sum += cost ((*heard - *expected) / std::hypot (ringErrors[i], hasWires ? errorOfRattle : 0.0));

    for (std::size_t i = wireOctave; hasWires && i < octaves.size(); ++i)
        if (const auto heard = lnOf (recorded[i].centreTime), expected = played.centres[i].at (gel, wire); heard && expected)
        {
            later += *heard - *expected;
            ++wireOctaves;
        }

    return wireOctaves > 0 ? sum + std::pow (later / wireOctaves / centreError, 2) : sum;
}

/** Median and 95 % range on a scale from 0 to 1. */
struct OnScale
{
    double middle, low, high;

    /** A sixth of what was possible is excluded. */
    bool isMeasured() const noexcept { return high - low < 0.84; }
};

OnScale onScale (const Eigen::VectorXd& weights)
{
    const auto quantile = [&, total = weights.sum()] (double share)
    {
        double sum = 0.0;
        Index i = 0;

        while (i + 1 < weights.size() && sum + weights[i] < share * total)
            sum += weights[i++];

        return weights.size() < 2 ? 0.0 : static_cast<double> (i) / static_cast<double> (weights.size() - 1);
    };
    const OnScale told{ quantile (0.5), quantile (0.025), quantile (0.975) };
    return told.isMeasured() ? told : OnScale{ told.middle, 0.0, 1.0 };
}

/** Of octaves in which modes are heard, how much longer the recording rings than the drum without gel: median of the logarithm.
 */
std::optional<double> longerThanBare (const OctaveFalls& recorded, const PlayedStrokes& played)
{
    constexpr std::size_t modeOctaves = 3;
    std::vector<double> differences;

    for (std::size_t i = 0; i < modeOctaves; ++i)
    {
        const auto heard = lnOf (recorded[i].t60), bare = played.rings[i].at (0.0);

        if (heard && bare)
            differences.push_back (*heard - *bare);
    }

    if (differences.empty())
        return std::nullopt;

    std::sort (differences.begin(), differences.end());
    return differences[differences.size() / 2];
}

} // namespace

Likeness likenessOf (const KnownDrum& known, const listening::Recording& recording, const listening::Tap& tap, double quiet,
                     const Progress& progress)
{
    listening::check (recording);
    const double rate = recording.sampleRate * std::ceil (lowestRate / recording.sampleRate);
    Likeness likeness{ .drum = known.drum, .tensions = known.tensions, .fittings = known.fittings };
    likeness.hasWires = known.drum.hasResonantHead() && tap.has (listening::Trouble::wiresOn);
    likeness.fittings.wires.on = likeness.hasWires;
    const auto gain = listening::gainRiseOf (recording, tap);
    likeness.recorded = octaveFallsOf (gain.isNone() ? recording : listening::withSteadyGain (recording, tap, gain), tap.lastBlow,
                                       tap.end, quiet);

    auto wires = likeness.fittings.wires;
    const auto wiresAt = [&] (double scale)
    {
        const auto set = strainerAt (scale);
        wires.strandTension = set.tension;
        wires.pressDepth = set.press;
        return wires;
    };
    const int wireCount = likeness.hasWires ? wireSteps : 1;
    const int gelCount = likeness.hasWires ? gelStepsWithWires : gelSteps;
    const double plays = gelCount * wireCount + 1;
    PlayedStrokes strokes (gelCount, wireCount);

    for (int g = 0; g < gelCount; ++g)
    {
        const MuffledDrum drum (known, gelAt (g / (gelCount - 1.0)), rate);

        for (int w = 0; w < wireCount; ++w)
        {
            strokes.set (g, w, drum.play (likeness.hasWires ? wiresAt (w / (wireSteps - 1.0)) : wires).falls);

            if (progress && ! progress ((g * wireCount + w + 1) / plays))
                return likeness;
        }
    }

    const Index wirePoints = likeness.hasWires ? finePoints : 1;
    const auto scaleOf = [] (Index i) { return static_cast<double> (i) / static_cast<double> (finePoints - 1); };
    Eigen::MatrixXd weights (finePoints, wirePoints);

    for (Index g = 0; g < finePoints; ++g)
        for (Index w = 0; w < wirePoints; ++w)
            weights (g, w) = costOf (likeness.recorded, strokes, scaleOf (g), scaleOf (w), likeness.hasWires);

    weights = (-0.5 * (weights.array() - weights.minCoeff())).exp();
    const auto gel = onScale (weights.rowwise().sum()), wire = onScale (weights.colwise().sum());
    const auto longer = longerThanBare (likeness.recorded, strokes);
    constexpr double clearlyLonger = 0.25;

    likeness.doubt = ! longer ? Doubt::noisy : *longer > clearlyLonger ? Doubt::ringsLonger : Doubt::none;
    likeness.gel = { gelAt (gel.middle), gelAt (gel.low), gelAt (gel.high), gel.isMeasured() && likeness.doubt == Doubt::none };
    likeness.strandTension = { strainerAt (wire.middle).tension, strainerAt (wire.low).tension, strainerAt (wire.high).tension,
                               likeness.hasWires && wire.isMeasured() };

    if (likeness.doubt != Doubt::none || (likeness.hasWires && ! likeness.gel.isMeasured))
        likeness.gel.value = 0.0;

    if (likeness.strandTension.isMeasured)
        likeness.fittings.wires = wiresAt (wire.middle);
    else
        likeness.strandTension.value = known.fittings.wires.strandTension;

    auto played = MuffledDrum (known, likeness.gel.value, rate).play (likeness.fittings.wires);
    likeness.drum = std::move (played.drum);
    likeness.tensions = std::move (played.tensions);
    likeness.played = played.falls;
    likeness.sound = std::move (played.sound);

    if (progress)
        progress (1.0);

    return likeness;
}

} // namespace playlike
