#include "Fitting/Drum.h"

#include "Iteration.h"
#include "Pairs.h"
#include "Search.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/Losses.h"
#include "Fitting/common/HeadMass.h"
#include "Modal/InputError.h"
#include "Modal/heads/OneHead.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

constexpr std::size_t fewestModes = 4;   // as many as unknowns
constexpr double sameTension = 0.05;     // relative
constexpr double farFromTolerance = 3.0; // standard deviations of a head's mass
constexpr double unresolved = 0.6;       // of the prior's standard deviation that is left after listening
constexpr double goTogether = 0.9;       // correlation
constexpr double tooVague = 100.0;       // cents of tap note: what no tech calls a note any more
constexpr double ownShare = 0.2;         // of a mode's energy in a head's film that makes it that head's

void checkSetup (const DrumFitSetup& setup)
{
    modal::check (setup.drum);
    modal::requireInRange (setup.massTolerance, { 0.0, 0.2, "" }, "tolerance of the heads' masses");
    modal::requireInRange (setup.modelError, { 0.1, 50.0, "cents" }, "error of the model");

    if (! setup.drum.hasResonantHead())
        throw modal::InputError ("drum to fit from strikes", "one head", "two heads; for one, a walk round it tells more");

    if (! setup.drum.muffling.empty())
        throw modal::InputError ("muffling", "on the drum", "none while it is recorded for a fit");
}

bool isSameTuning (const DrumState& a, const DrumState& b)
{
    return (a - b).head<2>().cwiseAbs().maxCoeff() < sameTension;
}

/** The most plausible drum of another diameter, of those that are usual, and how plausible it is. In vacuo a drum of any size has
    the notes of another; it is the air that tells them apart. */
std::pair<double, double> bestOtherSize (const std::vector<DrumIteration>& fits, const DrumFitSetup& setup,
                                         const std::vector<Line>& lines)
{
    constexpr std::size_t followed = 4; // tunings
    std::pair<double, double> best{ 0.0, -1.0e9 };

    for (const int inches : { -2, -1, 1, 2 })
    {
        auto other = setup;
        other.drum.diameter += inches * modal::units::inch;

        if (other.drum.diameter < 0.7 * setup.drum.diameter)
            continue;

        const double sameNotes = std::pow (other.drum.diameter / setup.drum.diameter, 2);

        for (std::size_t i = 0; i < std::min (followed, fits.size()); ++i)
            if (DrumIteration trial (other, lines, sameNotes * std::exp (fits[i].state[0]),
                                        sameNotes * std::exp (fits[i].state[1]));
                trial.run() && trial.plausibility() > best.second)
                best = { other.drum.diameter, trial.plausibility() };
    }

    return best;
}

std::size_t modesIn (const DrumIteration& fitted)
{
    std::vector<double> frequencies;

    for (const auto& one : fitted.assigned)
        frequencies.push_back (one.mode.mode.frequency);

    std::sort (frequencies.begin(), frequencies.end());
    return static_cast<std::size_t> (std::unique (frequencies.begin(), frequencies.end()) - frequencies.begin());
}

/** Why the best fit is not to be trusted; empty if it is. */
std::string objectionTo (const std::vector<DrumIteration>& fits, const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    const std::string advice =
        " Check diameter, depth and both heads, that nothing lies on the drum, and that the wires are off.";

    if (fits.empty())
        return "No tuning of a drum of this size gives the notes heard." + advice;

    const auto& best = fits.front();

    if (modesIn (best) < fewestModes)
        return "Only " + std::to_string (modesIn (best)) +
               " of the drum's modes were heard, which two heads cannot be told from. Strike in the middle, half way out and "
               "near "
               "the edge.";

    if (const auto [diameter, probable] = bestOtherSize (fits, setup, lines); probable > best.plausibility() + surelyBetter)
        return "A drum of " + modal::asText (diameter / modal::units::inch, 3) + " in explains the notes better than one of " +
               modal::asText (setup.drum.diameter / modal::units::inch, 3) + " in." + advice;

    if (best.evidence < goodEvidence * weightOf (lines))
        return "Too many of the notes heard belong to no mode of a drum of this size." + advice;

    if (best.misfit > goodMisfit)
        return "The notes heard do not belong together on a drum of this size: they miss by " + modal::asText (best.misfit, 2) +
               " times what is likely." + advice;

    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
    {
        const double off = best.state[side == modal::HeadSide::batter ? 2 : 3];

        if (std::abs (off) > farFromTolerance * std::max (setup.massTolerance, 1.0e-3))
            return "The notes would fit only a " + std::string (side == modal::HeadSide::batter ? "batter" : "resonant") + " head " +
                   modal::asText (100.0 * std::abs (std::expm1 (off)), 2) + " % " + (off < 0.0 ? "lighter" : "heavier") +
                   " than stated, which its tolerance rules out." + advice;
    }

    for (const auto& other : fits)
        if (! isSameTuning (best.state, other.state) && best.plausibility() - other.plausibility() < clearlyBetter)
            return "Two tunings explain the notes alike: batter " + modal::asText (std::exp (best.state[0]), 3) + " and resonant " +
                   modal::asText (std::exp (best.state[1]), 3) + " N/m, or " + modal::asText (std::exp (other.state[0]), 3) + " and " +
                   modal::asText (std::exp (other.state[1]), 3) + " N/m. Strike near the edge and on the resonant head too.";

    return {};
}

/** The tap note of one head at a state, and how its logarithm goes with tension and mass. */
Estimate tapNoteOf (const modal::DrumSpec& drum, modal::HeadSide side, const DrumIteration& fitted, const Eigen::Matrix4d& covariance)
{
    constexpr double step = 0.01;
    const int head = side == modal::HeadSide::batter ? 0 : 1;
    const double tension = std::exp (fitted.state[head]);
    const double note = modal::tapNote (drum, side, tension);
    DrumState gradient = DrumState::Zero();
    gradient[head] = std::log (modal::tapNote (drum, side, tension * (1.0 + step)) / note) / std::log1p (step);
    gradient[2 + head] = std::log (modal::tapNote (withHeadMass (drum, side, 1.0 + step), side, tension) / note) / std::log1p (step);
    return { note, note * std::sqrt (std::max (0.0, gradient.dot (covariance * gradient))) };
}

std::string inWholeNumbers (double value)
{
    return std::to_string (std::lround (value));
}

/** A head of which the strikes tell nothing. */
HeadFit nothingOf (std::string why)
{
    HeadFit fit;
    fit.doubts.push_back (std::move (why));
    return fit;
}

HeadFit headOf (const DrumFitSetup& setup, modal::HeadSide side, const DrumIteration& fitted, const Eigen::Matrix4d& covariance)
{
    const int head = side == modal::HeadSide::batter ? 0 : 1;
    HeadFit fit;
    fit.isPossible = true;
    fit.misfit = fitted.misfit;
    fit.tapNote = tapNoteOf (fitted.drumOfState(), side, fitted, covariance);
    fit.tension.value = std::exp (fitted.state[head]);
    fit.tension.error = fit.tension.value * std::sqrt (covariance (head, head));
    fit.massRatio.value = std::exp (fitted.state[2 + head]);
    fit.massRatio.error = fit.massRatio.value * std::sqrt (covariance (2 + head, 2 + head));

    if (const double most = modal::yieldTension (side == modal::HeadSide::batter ? setup.drum.batter : setup.drum.resonant);
        fit.tension.value > most || centsPerShare * fit.tapNote.error > tooVague * fit.tapNote.value)
        return nothingOf ("The strikes tell nothing of this head: " + inWholeNumbers (fit.tension.value) + " +/- " +
                          inWholeNumbers (fit.tension.error) + " N/m would be the guess, and its film bears " +
                          inWholeNumbers (most) + " N/m. Some strikes on this head itself, near its edge, would tell it.");

    if (std::sqrt (covariance (2 + head, 2 + head)) > unresolved * fitted.prior[2 + head] && setup.massTolerance > 0.0)
    {
        const double correlation =
            covariance (head, 2 + head) / std::sqrt (covariance (head, head) * covariance (2 + head, 2 + head));
        fit.doubts.push_back ("The head's mass is not told by these strikes; its tolerance is taken as stated." +
                              std::string (correlation > goTogether - 0.1
                                               ? " A heavier head drawn tighter would sound the same: their errors go together."
                                               : ""));
    }

    const auto isOwn = [side] (const Assignment& one)
    { return (side == modal::HeadSide::batter ? one.mode.mode.shares.batter : one.mode.mode.shares.resonant) > ownShare; };

    constexpr double vague = 3.0; // cents

    if (side == modal::HeadSide::resonant && centsPerShare * fit.tapNote.error > vague * fit.tapNote.value)
        fit.doubts.push_back (
            "Its tap note is vague: too little of its own is heard through the batter. Some strikes on this head "
            "itself, near its edge, would tell it.");

    if (std::none_of (fitted.assigned.begin(), fitted.assigned.end(), isOwn))
        fit.doubts.push_back ("None of the head's own modes was heard: its tension follows from how it holds the other head back "
                              "through the air, and hangs on the drum's depth and vent as stated.");

    return fit;
}

} // namespace

DrumFit fitDrum (const DrumFitSetup& setup, const std::vector<Line>& heard, int strikes)
{
    checkSetup (setup);
    DrumFit fit;
    fit.strikesUsed = strikes;
    const auto lines = tellingLines (heard);

    if (lines.size() < fewestModes)
    {
        fit.doubts.push_back (
            "Only " + std::to_string (lines.size()) +
            " notes were heard, which two heads cannot be told from. Strike in the middle, half way out and near "
            "the edge, and let each ring.");
        return fit;
    }

    // A drum whose resonant head is held still may explain the notes as well: then they tell nothing of that head.
    const DrumFitSetup oneHead{ .drum = modal::withOneHead (setup.drum, modal::HeadSide::batter),
                                .massTolerance = setup.massTolerance,
                                .modelError = setup.modelError };
    const auto bothFits = searchDrum (setup, lines), stillFits = searchDrum (oneHead, lines);
    const bool isStill = ! stillFits.empty() &&
                         (bothFits.empty() || stillFits.front().plausibility() > bothFits.front().plausibility() - clearlyBetter);
    const auto& fits = isStill ? stillFits : bothFits;

    if (const auto objection = objectionTo (fits, isStill ? oneHead : setup, lines); ! objection.empty())
    {
        fit.misfit = fits.empty() ? 0.0 : fits.front().misfit;
        fit.doubts.push_back (objection);
        return fit;
    }

    const auto& best = fits.front();
    // What is left over says how far the errors assumed can be trusted.
    const Eigen::Matrix4d covariance = best.posterior.covariance * std::max (1.0, best.misfit * best.misfit);
    fit.misfit = best.misfit;
    fit.batter = headOf (setup, modal::HeadSide::batter, best, covariance);
    fit.resonant = isStill ? nothingOf ("The notes are as well those of the batter over a resonant head that is held still: they "
                                        "tell nothing of the resonant head. Let it ring and strike again; or, if it was held "
                                        "still, fit the recording as a walk.")
                           : headOf (setup, modal::HeadSide::resonant, best, covariance);
    fit.isPossible = fit.batter.isPossible || fit.resonant.isPossible;

    if (! fit.isPossible)
    {
        fit.doubts = fit.batter.doubts;
        return fit;
    }

    std::vector<HeardDecay> decays;

    for (const auto& one : best.assigned)
    {
        fit.partials.push_back ({ one.line->frequency, one.mode.mode, one.cents });
        decays.push_back ({ one.line->decay, one.line->decayError, one.mode.mode.decay });
    }

    const modal::Tensions tensions{ std::exp (best.state[0]), std::exp (best.state[1]) };
    const auto pairs = pairsHeard (best.drumOfState(), tensions, lines);
    fit.batter.lugWaves = lugWavesOf (setup.drum, modal::HeadSide::batter, tensions.batter, pairs);
    fit.resonant.lugWaves = lugWavesOf (setup.drum, modal::HeadSide::resonant, tensions.resonant, pairs);
    fit.batter.lossRatio = fit.resonant.lossRatio = lossRatioOf (decays);
    fit.batter.tapsUsed = fit.resonant.tapsUsed = fit.strikesUsed;

    if (const double correlation = covariance (0, 1) / std::sqrt (covariance (0, 0) * covariance (1, 1));
        fit.batter.isPossible && fit.resonant.isPossible && std::abs (correlation) > goTogether)
        fit.doubts.push_back ("The heads' tensions cannot be told apart well: their errors go " +
                              std::string (correlation > 0.0 ? "together." : "against each other."));

    fit.doubts.push_back (
        "Of uneven lugs strikes tell how much, not where, and nothing of a lug that is up while the one opposite is "
        "down by as much. Tap beside every lug for that.");

    for (const auto* head : { &fit.batter, &fit.resonant })
        if (head->isPossible && head->lugWaves.empty())
            fit.doubts.push_back (std::string ("How even the ") + (head == &fit.batter ? "batter" : "resonant") +
                                  " head is cannot be told: no pair of modes that is mostly its own was heard.");

    return fit;
}

} // namespace fitting
