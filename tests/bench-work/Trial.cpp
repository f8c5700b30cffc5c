#include "Trial.h"

#include "Listening/Partials.h"
#include "Listening/Taps.h"

#include "Modal/FitHead.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <cmath>
#include <random>

namespace synthetic
{
namespace
{

void hear (const Walk& walk, const Surroundings& surroundings, std::vector<modal::HeardTap>& into)
{
    const auto recording = record (walk, surroundings);
    const auto quiet = listening::quietestMoment (recording);
    constexpr double firstTap = 0.3; // s, as record() has it

    for (const auto& tap : listening::findTaps (recording))
    {
        const int lug = static_cast<int> (std::lround ((tap.start - firstTap) / walk.between));

        if (lug >= 0 && lug < walk.drum.lugs && ! tap.isUnusable())
            into.push_back (
                { .lug = lug, .hasPatch = walk.patch.has_value(), .partials = listening::partialsOf (recording, tap, quiet) });
    }
}

} // namespace

Outcome tryDrum (unsigned seed, double signalToNoise, bool hasPatchWalk)
{
    std::mt19937 random (seed);
    const auto between = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };
    const auto oneOf = [&] (int low, int high) { return std::uniform_int_distribution<int> (low, high) (random); };

    modal::DrumSpec believed;
    believed.diameter = oneOf (12, 15) * modal::units::inch;
    believed.depth = between (4.0, 8.0) * modal::units::inch;
    believed.lugs = oneOf (3, 5) * 2;
    believed.batter.plyThickness = between (7.0, 12.0) * modal::units::mil;

    auto built = believed;
    built.batter.plyThickness *= between (0.97, 1.03);

    Walk walk{ .drum = built };
    walk.tension = between (0.08, 0.22) * modal::yieldTension (built.batter);
    const double semitone = modal::semitoneTension (built, modal::HeadSide::batter, walk.tension);
    const int off = oneOf (0, believed.lugs - 1);
    const double cents = oneOf (0, 1) == 0 ? 20.0 : -20.0;
    const double share = std::pow (1.0 + semitone, cents / 100.0) - 1.0;
    walk.lugs.assign (static_cast<std::size_t> (built.lugs), -share / built.lugs);
    walk.lugs[static_cast<std::size_t> (off)] += share;

    std::vector<modal::HeardTap> taps;
    hear (walk, { .signalToNoise = signalToNoise, .seed = seed }, taps);
    modal::HeadFitSetup setup{ .drum = believed };

    if (hasPatchWalk)
    {
        modal::MufflingItem patch;
        patch.mass = 4.0e-3;
        patch.size = 0.06;
        patch.distance = 0.1;
        patch.angle = modal::units::pi / believed.lugs;
        setup.patch = walk.patch = patch;
        hear (walk, { .signalToNoise = signalToNoise, .seed = seed + 100000u }, taps);
    }

    const auto fit = modal::fitHead (setup, taps);
    Outcome outcome;
    outcome.isPossible = fit.isPossible;

    if (! fit.isPossible)
        return outcome;

    outcome.noteCents = modal::centsBetween (modal::tapNote (built, modal::HeadSide::batter, walk.tension), fit.tapNote.value);
    outcome.tensionShare = fit.tension.value / walk.tension - 1.0;

    if (! fit.suspects.empty())
    {
        const auto& first = fit.suspects.front();
        outcome.isLugNamed = first.lug == off;
        outcome.isAxisNamed = first.lug % (believed.lugs / 2) == off % (believed.lugs / 2);
        outcome.suspectCents = first.cents.value;
    }

    return outcome;
}

} // namespace synthetic
