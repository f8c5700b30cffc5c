#include "Fitting/Drum.h"

#include "Answers.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Fitting/common/Losses.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"
#include "Pairs.h"
#include "Search.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

namespace fitting
{
namespace
{

constexpr std::size_t fewestLines = 4;
constexpr std::size_t fewestModes = 2;   // the masses are known beforehand, so two tensions are left
constexpr double farFromTolerance = 3.0; // standard deviations of a head's mass
constexpr double goTogether = 0.9;       // correlation
constexpr double tooVague = 100.0;       // cents of tap note
constexpr double ownShare = 0.2;         // of a mode's energy in a head that makes it that head's own mode

void checkSetup (const DrumFitSetup& setup)
{
    modal::check (setup.drum);
    modal::requireInRange (setup.massTolerance, { 0.0, 0.2, "" }, "tolerance of the heads' masses");
    modal::requireInRange (setup.modelError, modelErrorRange, "error of the model");
    modal::requireInRange (setup.decayError, decayErrorRange, "error of the predicted decays");

    for (const double diameter : setup.otherDiameters)
    {
        auto other = setup.drum;
        other.diameter = diameter;
        modal::check (other);
    }

    for (const auto& head : setup.otherBatters)
        modal::check (head, setup.drum.radius(), "other batter");

    for (const auto& head : setup.otherResonants)
        modal::check (head, setup.drum.radius(), "other resonant");

    if (setup.turned)
        modal::requireInRange (setup.turned->turns, turnedRange, "turns between the recordings");

    if (setup.weighted)
    {
        modal::requireInRange (setup.weighted->mass, centreWeightRange, "weight at the centre of the batter head");
        modal::requireInRange (setup.weighted->size, centreWeightSizeRange, "diameter of the weight");
    }

    if (! setup.drum.hasResonantHead())
        throw modal::InputError ("drum to fit from strikes", "one head", "two heads; for one head make a lug check");

    if (! setup.drum.muffling.empty())
        throw modal::InputError ("muffling", "on the drum", "none while it is recorded for a fit");
}

Finding refusal (Finding::Kind kind, std::vector<double> numbers = {})
{
    return { kind, Finding::Severity::refusal, std::move (numbers) };
}

/** The most plausible other diameter and its plausibility. In vacuo drums of all sizes can have the same notes; only the air load
    distinguishes them. */
std::pair<double, double> bestOtherSize (const std::vector<DrumIteration>& fits, const DrumFitSetup& setup,
                                         const std::vector<Line>& lines)
{
    std::pair<double, double> best{ 0.0, -1.0e9 };

    for (const int inches : { -2, -1, 1, 2 })
    {
        auto other = setup;
        other.drum.diameter += inches * modal::units::inch;

        if (other.drum.diameter < 0.7 * setup.drum.diameter)
            continue;

        if (const auto found = followOnOther (other, lines, fits); ! found.empty() && found.front().plausibility() > best.second)
            best = { other.drum.diameter, found.front().plausibility() };
    }

    return best;
}

/** The drums that it may be: for each diameter the stated heads, then each combination with the others. */
std::vector<DrumFitSetup> setupsOf (const DrumFitSetup& setup)
{
    const auto all = [] (auto stated, auto others)
    {
        others.insert (others.begin(), std::move (stated));
        return others;
    };
    std::vector<DrumFitSetup> drums;

    for (const double diameter : all (setup.drum.diameter, setup.otherDiameters))
        for (const auto& batter : all (setup.drum.batter, setup.otherBatters))
            for (const auto& resonant : all (setup.drum.resonant, setup.otherResonants))
            {
                drums.push_back (setup);
                drums.back().drum.diameter = diameter;
                drums.back().drum.batter = batter;
                drums.back().drum.resonant = resonant;
            }

    return drums;
}

DrumFitSetup withResonantStill (DrumFitSetup setup)
{
    setup.drum = modal::withOneHead (setup.drum, modal::HeadSide::batter);
    setup.otherResonants.clear();
    return setup;
}

/** Fits of all drums, those of the largest weight() first. Drums of one size share their search, since other heads have the same
    notes at other tensions. Setups and lines must outlive them. */
std::vector<DrumIteration> searchDrums (const std::vector<DrumFitSetup>& setups, const std::vector<Line>& lines)
{
    std::vector<DrumIteration> all, ofSize;

    for (std::size_t i = 0; i < setups.size(); ++i)
    {
        const bool isNewSize = i == 0 || setups[i].drum.diameter != setups[i - 1].drum.diameter;
        auto found = isNewSize ? searchDrum (setups[i], lines) : followOnOther (setups[i], lines, ofSize);

        if (isNewSize)
            ofSize = found;

        all.insert (all.end(), std::make_move_iterator (found.begin()), std::make_move_iterator (found.end()));
    }

    std::stable_sort (all.begin(), all.end(),
                      [] (const DrumIteration& a, const DrumIteration& b) { return a.weight() > b.weight(); });
    return all;
}

std::size_t modesIn (const DrumIteration& fitted)
{
    std::vector<double> frequencies;

    for (const auto& one : fitted.assigned)
        frequencies.push_back (one.mode.mode.frequency);

    std::sort (frequencies.begin(), frequencies.end());
    return static_cast<std::size_t> (std::unique (frequencies.begin(), frequencies.end()) - frequencies.begin());
}

/** Why there is no answer; none if there is one. */
std::optional<Finding> objectionTo (const std::vector<DrumIteration>& fits, const std::vector<Line>& lines)
{
    using Kind = Finding::Kind;

    if (fits.empty())
        return refusal (Kind::noTuning);

    const auto& best = fits.front();

    if (modesIn (best) < fewestModes)
        return refusal (Kind::tooFewCoupledModes, { static_cast<double> (modesIn (best)) });

    if (std::none_of (fits.begin(), fits.end(),
                      [&] (const DrumIteration& fit) { return fit.evidence > leastEvidence * weightOf (lines); }))
        return refusal (Kind::unexplainedNotes);

    return std::nullopt;
}

/** What makes an answer doubtful. */
std::vector<Finding> doubtsOf (const std::vector<DrumIteration>& fits, const std::vector<DrumAnswer>& answers,
                               const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    using Kind = Finding::Kind;
    const auto& best = fits.front();
    std::vector<Finding> doubts;
    const auto warn = [&] (Kind kind, std::vector<double> numbers, std::optional<modal::HeadSide> head = {}) {
        doubts.push_back ({ kind, Finding::Severity::warning, std::move (numbers), head });
    };

    if (setup.otherDiameters.empty())
        if (const auto [diameter, probable] = bestOtherSize (fits, setup, lines); probable > best.plausibility() + surelyBetter)
            warn (Kind::otherDiameter, { diameter, setup.drum.diameter });

    if (best.evidence < littleEvidence * weightOf (lines))
        warn (Kind::unexplainedNotes, {});

    if (best.misfit > goodMisfit)
        warn (Kind::inconsistentNotes, { best.misfit });

    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
        if (const double off = best.state[side == modal::HeadSide::batter ? 2 : 3];
            std::abs (off) > farFromTolerance * std::max (setup.massTolerance, 1.0e-3))
            warn (Kind::otherMass, { std::exp (off) }, side);

    if (answers.size() > 1)
        warn (Kind::twoTunings, { answers[0].batter.tension.value, answers[0].resonant.tension.value,
                                  answers[1].batter.tension.value, answers[1].resonant.tension.value });

    return doubts;
}

/** A head that the strikes do not determine. */
HeadFit unknownHead (Finding why)
{
    HeadFit fit;
    fit.findings.push_back (std::move (why));
    return fit;
}

HeadFit headOf (const DrumFitSetup& setup, modal::HeadSide side, const DrumIteration& fitted, const Eigen::Matrix4d& covariance)
{
    const int head = side == modal::HeadSide::batter ? 0 : 1;
    HeadFit fit;
    fit.isPossible = true;
    fit.misfit = fitted.misfit;
    fit.tapNote = tapNoteOf (fitted, side, covariance);
    fit.tension.value = std::exp (fitted.state[head]);
    fit.tension.error = fit.tension.value * std::sqrt (covariance (head, head));
    fit.massRatio.value = std::exp (fitted.state[2 + head]);
    fit.massRatio.error = fit.massRatio.value * std::sqrt (covariance (2 + head, 2 + head));

    if (const double most =
            modal::yieldTension (side == modal::HeadSide::batter ? fitted.setUp().drum.batter : fitted.setUp().drum.resonant);
        fit.tension.value > most || centsPerShare * fit.tapNote.error > tooVague * fit.tapNote.value)
        return unknownHead (refusal (Finding::Kind::headUnknown, { fit.tension.value, fit.tension.error, most }));

    if (std::sqrt (covariance (2 + head, 2 + head)) > unresolvedMass * fitted.prior[2 + head] && setup.massTolerance > 0.0)
    {
        const double correlation =
            covariance (head, 2 + head) / std::sqrt (covariance (head, head) * covariance (2 + head, 2 + head));
        fit.findings.push_back ({ .kind = Finding::Kind::massNotMeasured, .numbers = { correlation } });
    }

    const auto isOwn = [side] (const Assignment& one)
    { return (side == modal::HeadSide::batter ? one.mode.mode.shares.batter : one.mode.mode.shares.resonant) > ownShare; };

    constexpr double vague = 3.0; // cents

    if (side == modal::HeadSide::resonant && centsPerShare * fit.tapNote.error > vague * fit.tapNote.value)
        fit.findings.push_back ({ Finding::Kind::vagueTapNote });

    if (std::none_of (fitted.assigned.begin(), fitted.assigned.end(), isOwn))
        fit.findings.push_back ({ Finding::Kind::noModeOfItsOwn });

    return fit;
}

} // namespace

DrumFit fitDrum (const DrumFitSetup& setup, const std::vector<Line>& heard, int strikes)
{
    checkSetup (setup);
    DrumFit fit;
    fit.strikesUsed = strikes;
    const auto lines = tellingLines (heard);

    if (lines.size() < fewestLines)
    {
        fit.findings.push_back (refusal (Finding::Kind::tooFewNotes, { static_cast<double> (lines.size()) }));
        return fit;
    }

    if (areHarmonics (heard))
    {
        fit.findings.push_back (refusal (Finding::Kind::harmonicNotes));
        return fit;
    }

    // If a drum with the resonant head held still explains the notes as well, they do not determine that head.
    const auto drums = setupsOf (setup), stillDrums = setupsOf (withResonantStill (setup));
    const auto bothFits = searchDrums (drums, lines), stillFits = searchDrums (stillDrums, lines);
    const bool isStill = ! stillFits.empty() && stillFits.front().evidence > littleEvidence * weightOf (lines) &&
                         (bothFits.empty() || stillFits.front().plausibility() > bothFits.front().plausibility() - clearlyBetter);
    const auto& fits = isStill ? stillFits : bothFits;

    if (auto objection = objectionTo (fits, lines))
    {
        fit.misfit = fits.empty() ? 0.0 : fits.front().misfit;
        fit.findings.push_back (std::move (*objection));
        return fit;
    }

    fit.answers = answersOf (fits);
    fit.findings = doubtsOf (fits, fit.answers, isStill ? stillDrums.front() : setup, lines);
    const auto& best = fits.front();
    const auto covariance = best.freeCovariance();
    fit.misfit = best.misfit;
    fit.batter = headOf (setup, modal::HeadSide::batter, best, covariance);
    fit.resonant = isStill ? unknownHead (refusal (Finding::Kind::resonantHeldStill))
                           : headOf (setup, modal::HeadSide::resonant, best, covariance);
    fit.isPossible = fit.batter.isPossible || fit.resonant.isPossible;

    if (! fit.isPossible)
    {
        fit.findings.insert (fit.findings.end(), fit.batter.findings.begin(), fit.batter.findings.end());
        return fit;
    }

    std::vector<HeardDecay> decays;

    for (const auto& one : best.assigned)
    {
        fit.partials.push_back ({ one.line->frequency, one.mode.mode, one.cents });
        decays.push_back ({ one.line->decay, one.line->decayError, one.mode.mode.decay });
    }

    const modal::Tensions tensions{ std::exp (best.state[0]), std::exp (best.state[1]) };
    const auto drum = best.drumOfState();
    const auto pairs = pairsHeard (drum, tensions, lines);
    fit.batter.lugWaves = lugWavesOf (drum, modal::HeadSide::batter, tensions.batter, pairs);
    fit.resonant.lugWaves = lugWavesOf (drum, modal::HeadSide::resonant, tensions.resonant, pairs);
    fit.batter.lossRatio = fit.resonant.lossRatio = lossRatioOf (decays, setup.decayError);
    fit.batter.tapsUsed = fit.resonant.tapsUsed = fit.strikesUsed;

    if (const double correlation = covariance (0, 1) / std::sqrt (covariance (0, 0) * covariance (1, 1));
        fit.batter.isPossible && fit.resonant.isPossible && std::abs (correlation) > goTogether)
        fit.findings.push_back ({ .kind = Finding::Kind::linkedTensions, .numbers = { correlation } });

    fit.findings.push_back ({ Finding::Kind::lugsNotLocated });

    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
        if (const auto& head = side == modal::HeadSide::batter ? fit.batter : fit.resonant;
            head.isPossible && head.lugWaves.empty())
            fit.findings.push_back ({ .kind = Finding::Kind::unknownEvenness, .head = side });

    return fit;
}

} // namespace fitting
