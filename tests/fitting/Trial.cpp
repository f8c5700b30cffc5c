#include "Trial.h"

#include "Listening/LugCheck.h"
#include "Listening/Strikes.h"
#include "Listening/Taps.h"

#include "Fitting/Drum.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Fitting/drum/Model.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

namespace synthetic
{
namespace
{

/** Draws what is random about a drum. */
class Chance
{
public:
    explicit Chance (unsigned seed) : random (seed) {}

    double between (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); }
    int oneOf (int low, int high) { return std::uniform_int_distribution<int> (low, high) (random); }

    modal::DrumSpec drum()
    {
        modal::DrumSpec drawn;
        drawn.diameter = oneOf (12, 15) * modal::units::inch;
        drawn.depth = between (4.0, 8.0) * modal::units::inch;
        drawn.lugs = oneOf (3, 5) * 2;
        drawn.batter.plyThickness = between (7.0, 12.0) * modal::units::mil;
        return drawn;
    }

    /** One lug some cents up or down, as Tensions has it; `off` becomes which. */
    std::vector<double> oneLugOff (const modal::DrumSpec& built, modal::HeadSide side, double tension, int& off,
                                   double size = 20.0)
    {
        off = oneOf (0, built.lugs - 1);
        const double cents = oneOf (0, 1) == 0 ? size : -size;
        const double share = std::pow (1.0 + modal::semitoneTension (built, side, tension), cents / 100.0) - 1.0;
        std::vector<double> lugs (static_cast<std::size_t> (built.lugs), -share / built.lugs);
        lugs[static_cast<std::size_t> (off)] += share;
        return lugs;
    }

private:
    std::mt19937 random;
};

constexpr double sure = 1.96; // standard deviations on either side of 95 %

Deviations deviationsOf (unsigned seed, Played played)
{
    return played == Played::asModel ? Deviations{}
                                     : Deviations{ fitting::usualModelError, fitting::usualDecayError, seed + 5000u };
}

Surroundings surroundingsOf (unsigned seed, Played played)
{
    if (played == Played::asModel)
        return {};

    Chance chance (seed + 9000u);
    return { .roomShare = chance.between (0.05, 0.2), .roomTime = chance.between (0.2, 0.6), .isByTelephone = seed % 2 == 0 };
}

/** Tells a fit how far what is played lies off the model; of a real drum it has its own figures. */
template <typename Setup>
void believeAsPlayed (Setup& setup, Played played)
{
    if (played == Played::asReal)
        return;

    setup.modelError = playedError;
    setup.decayError = playedDecayError;
}

/** m, of a ply that has so much: what is stated of a real head is as uncertain as the fit takes it to be, evenly spread within √3
   standard deviations. @param mass  0.97 to 1.03, evenly spread */
double statedThickness (double thickness, double mass)
{
    return thickness / (1.0 + std::sqrt (3.0) * (mass - 1.0));
}

/** N/m that put the resonant head's tap note so many semitones above the batter's, as far as its film bears. */
double resonantTension (const modal::DrumSpec& drum, double batterNote, double semitones)
{
    const auto side = modal::HeadSide::resonant;
    const double highest = modal::tapNote (drum, side, 0.9 * modal::yieldTension (drum.resonant));
    return modal::tensionForTapNote (drum, side, std::min (highest, batterNote * std::exp2 (semitones / 12.0)));
}

} // namespace

LugCheckTrial::LugCheckTrial (unsigned seed, bool hasPatchCheck, Mistake mistake, Played played)
    : surroundings (surroundingsOf (seed, played))
{
    Chance chance (seed);
    believed.drum = chance.drum();
    LugCheck check{ .drum = believed.drum, .deviations = deviationsOf (seed, played) };

    believeAsPlayed (believed, played);

    if (played == Played::asReal)
        check.between = 1.3; // a tap of a head that rings long is left to ring

    const double mass = chance.between (0.97, 1.03); // over the one stated
    check.drum.batter.plyThickness *= mass;

    if (played == Played::asReal)
        believed.drum.batter.plyThickness = statedThickness (check.drum.batter.plyThickness, mass);

    check.tension = chance.between (0.08, 0.22) * modal::yieldTension (check.drum.batter);
    check.lugs = chance.oneLugOff (check.drum, modal::HeadSide::batter, check.tension, lugOff);

    if (mistake == Mistake::inchMore)
        believed.drum.diameter += modal::units::inch;
    else if (mistake == Mistake::openBelow)
        check.drum.bottom = modal::Bottom::open;
    else if (mistake == Mistake::otherHeadRings)
        check.otherTension =
            resonantTension (check.drum, modal::tapNote (check.drum, check.side, check.tension), chance.between (-2.0, 9.0));

    // The engine and the model agree, and a tap note is over a closed cavity.
    note = played == Played::asReal ? playedTapNote (check) : modal::tapNote (check.drum, modal::HeadSide::batter, check.tension);
    checks.push_back ({ check, dryRecord (check, seed), seed });

    if (hasPatchCheck)
    {
        modal::MufflingItem patch;
        patch.mass = 4.0e-3;
        patch.size = 0.06;
        patch.distance = 0.1;
        patch.angle = modal::units::pi / check.drum.lugs;
        believed.patch = check.patch = patch;
        seed += 100000u;
        checks.push_back ({ check, dryRecord (check, seed), seed });
    }
}

Outcome LugCheckTrial::at (double signalToNoise) const
{
    std::vector<fitting::HeardTap> taps;

    for (const auto& [check, dry, seed] : checks)
    {
        auto around = surroundings;
        around.signalToNoise = signalToNoise;
        around.seed = seed;
        const auto recording = placed (dry, around);
        const auto quiet = listening::quietestMoment (recording);

        for (const auto& tap : listening::findTaps (recording))
        {
            const int lug = static_cast<int> (std::lround ((tap.start - leadIn) / check.between));

            if (lug >= 0 && lug < check.drum.lugs && ! tap.isUnusable())
                taps.push_back (listening::heardTap (recording, tap, quiet, lug, check.patch.has_value()));
        }
    }

    const auto fit = fitting::fitHead (believed, taps);
    Outcome outcome{ .isPossible = fit.isPossible, .isWarned = fit.isPossible && fit.isWarned() };

    if (! fit.isPossible || outcome.isWarned)
        outcome.refusal = nameOf (fitting::mostSevere (fit.findings)->kind);

    if (! fit.isPossible)
        return outcome;

    const auto& check = checks.front().check;
    outcome.noteCents = modal::centsBetween (note, fit.tapNote.value);
    outcome.tensionShare = fit.tension.value / check.tension - 1.0;
    outcome.note.count (std::abs (fit.tapNote.value - note) < sure * fit.tapNote.error);
    outcome.tension.count (std::abs (std::log (fit.tension.value / check.tension)) * fit.tension.value <
                           sure * fit.tension.error);
    const double semitone = modal::semitoneTension (check.drum, modal::HeadSide::batter, check.tension);

    for (std::size_t k = 0; k < fit.lugCents.size(); ++k)
    {
        const double cents = 100.0 * std::log1p (check.lugs[k]) / std::log1p (semitone);
        outcome.lugs.count (std::abs (fit.lugCents[k].value - cents) < sure * fit.lugCents[k].error);
    }

    if (! fit.suspects.empty())
    {
        const auto& first = fit.suspects.front();
        const int half = check.drum.lugs / 2;
        outcome.isLugNamed = first.lug == lugOff;
        outcome.isAxisNamed = first.lug % half == lugOff % half;
        outcome.suspectCents = first.cents.value;
    }

    return outcome;
}

StrikesTrial::StrikesTrial (unsigned seed, double cents, bool hasWiresOn, Played played)
    : surroundings (surroundingsOf (seed, played)), lugCents (cents)
{
    using modal::HeadSide;
    Chance chance (seed);
    believed.drum = chance.drum();
    believed.drum.resonant.plyThickness = chance.between (2.5, 4.0) * modal::units::mil;
    built = believed.drum;

    believeAsPlayed (believed, played);

    for (const auto head : { &modal::DrumSpec::batter, &modal::DrumSpec::resonant })
    {
        const double mass = chance.between (0.97, 1.03); // over the one stated
        (built.*head).plyThickness *= mass;

        if (played == Played::asReal)
            (believed.drum.*head).plyThickness = statedThickness ((built.*head).plyThickness, mass);
    }

    tensions.batter = chance.between (0.08, 0.22) * modal::yieldTension (built.batter);
    notes[0] = modal::tapNote (built, HeadSide::batter, tensions.batter);
    tensions.resonant = resonantTension (built, notes[0], chance.between (-2.0, 9.0));
    notes[1] = modal::tapNote (built, HeadSide::resonant, tensions.resonant);
    int off = 0;
    tensions.batterLugs = chance.oneLugOff (built, HeadSide::batter, tensions.batter, off, cents);
    tensions.resonantLugs = chance.oneLugOff (built, HeadSide::resonant, tensions.resonant, off, cents);

    const double hardest = played == Played::asReal ? 5.0 : 2.0; // m/s
    Strike strike{ .drum = built, .tensions = tensions, .deviations = deviationsOf (seed, played) };
    strike.wires.on = hasWiresOn;

    for (unsigned k = 0; k < 6; ++k)
    {
        strike.position = chance.between (0.0, 0.85);
        strike.angle = chance.between (0.0, modal::units::twoPi);
        strike.speed = chance.between (1.0, hardest);
        strike.isHeardFromBelow = k % 2 == 1;
        strikes.push_back ({ dryRecord (strike), 6 * seed + k });
    }
}

StrikesOutcome StrikesTrial::at (double signalToNoise) const
{
    std::vector<listening::Strike> heard;

    for (const auto& [dry, seed] : strikes)
    {
        auto around = surroundings;
        around.signalToNoise = signalToNoise;
        around.seed = seed;
        const auto recording = std::make_shared<const listening::Recording> (placed (dry, around));
        const auto quiet = listening::quietestMoment (*recording);

        for (const auto& tap : listening::findTaps (*recording))
            if (tap.canBeStrike())
                heard.push_back ({ recording, tap, quiet });
    }

    const auto lines = listening::linesOf (heard);
    const auto fit = fitting::fitDrum (believed, lines, static_cast<int> (heard.size()));
    StrikesOutcome outcome{ .isPossible = fit.isPossible };

    if (! fit.isPossible)
    {
        outcome.refusal = nameOf (fitting::mostSevere (fit.findings)->kind);
        return outcome;
    }

    const fitting::HeadFit* const heads[] = { &fit.batter, &fit.resonant };
    const double truth[] = { tensions.batter, tensions.resonant };

    for (int h = 0; h < 2; ++h)
    {
        if (! heads[h]->isPossible)
        {
            outcome.noteCents[h] = outcome.tensionShare[h] = outcome.pull[h] = std::numeric_limits<double>::infinity();
            continue;
        }

        outcome.noteCents[h] = modal::centsBetween (notes[h], heads[h]->tapNote.value);
        outcome.tensionShare[h] = heads[h]->tension.value / truth[h] - 1.0;
        outcome.pull[h] = (heads[h]->tension.value - truth[h]) / heads[h]->tension.error;
    }

    for (const int h : { 0, 1 })
        if ((h == 0 ? fit.answers[0].batter : fit.answers[0].resonant).tension.value > 0.0)
        {
            const auto [low, high] =
                fitting::tensionRange (fit.answers, h == 0 ? modal::HeadSide::batter : modal::HeadSide::resonant);
            outcome.tension[h].count (low < truth[h] && truth[h] < high);
        }

    for (const auto* head : heads)
        for (const auto& wave : head->lugWaves)
        {
            // One lug of L lifts every wave alike; at half their number the lugs hold but one of its two directions.
            const double both = 2 * wave.waves == built.lugs ? 1.0 : 2.0;
            outcome.waves.push_back ({ wave.cents, both * lugCents / built.lugs });
        }

    outcome.bound = boundOf (fit, lines);
    return outcome;
}

StrikesOutcome::Bound StrikesTrial::boundOf (const fitting::DrumFit& fit, const std::vector<fitting::Line>& lines) const
{
    using modal::HeadSide;
    constexpr double highest = 1500.0, step = 0.01;
    constexpr int orders = 9;
    const auto modes = fitting::DrumModel (built, highest, orders).modesAt (tensions.batter, tensions.resonant);

    const auto noteAt = [&] (double tension, double mass)
    {
        return modal::tapNote (fitting::withHeadMass (built, HeadSide::resonant, mass), HeadSide::resonant,
                               tension * tensions.resonant);
    };
    fitting::DrumState gradient = fitting::DrumState::Zero();
    gradient[1] = std::log (noteAt (1.0 + step, 1.0) / notes[1]) / step;
    gradient[3] = std::log (noteAt (1.0, 1.0 + step) / notes[1]) / step;

    const double mass = fitting::DrumFitSetup{}.massTolerance;
    const Eigen::Vector4d before (1.0, 1.0, mass, mass);
    Eigen::Matrix4d byNoise = before.cwiseAbs2().cwiseInverse().asDiagonal(), inRoom = byNoise;
    const auto add = [] (Eigen::Matrix4d& information, const fitting::ExpectedMode& mode, double cents)
    { information += mode.gradient * mode.gradient.transpose() * std::pow (fitting::centsPerShare / cents, 2); };
    const auto bound = [&] (const Eigen::Matrix4d& information)
    { return fitting::centsPerShare * std::sqrt (gradient.dot (information.ldlt().solve (gradient))); };

    for (const auto& named : fit.partials)
    {
        const auto line =
            std::find_if (lines.begin(), lines.end(), [&] (const auto& l) { return l.frequency == named.frequency; });
        const auto mode = std::min_element (
            modes.begin(), modes.end(),
            [&] (const auto& a, const auto& b)
            { return std::abs (a.mode.frequency - named.frequency) < std::abs (b.mode.frequency - named.frequency); });
        const double room = fitting::roomTurn * line->decay / modal::units::twoPi; // Hz
        add (byNoise, *mode, fitting::centsPerShare * line->error / line->frequency);
        add (inRoom, *mode, fitting::centsPerShare * std::hypot (line->error, room) / line->frequency);
    }

    auto heard = inRoom;

    for (int m = 1; m <= 2; ++m)
    {
        const auto share = [m] (const fitting::ExpectedMode& mode)
        { return mode.mode.m == m && mode.mode.n == 1 ? mode.mode.shares.resonant : 0.0; };
        add (heard,
             *std::max_element (modes.begin(), modes.end(), [&] (const auto& a, const auto& b) { return share (a) < share (b); }),
             1.0);
    }

    return { bound (byNoise), bound (inRoom), bound (heard) };
}

} // namespace synthetic
