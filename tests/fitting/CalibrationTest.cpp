#include "tests/Catch.h"

#include "LineDrum.h"
#include "Trial.h"

#include "Fitting/LeftOut.h"
#include "Fitting/drum/Iteration.h"
#include "Fitting/drum/Model.h"
#include "Fitting/head/Iteration.h"
#include "Fitting/head/Lugs.h"

#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

using namespace fitting;
using modal::DrumSpec;
using synthetic::LineDrum;

namespace
{

/** How often the true tensions lie in the 95 % ranges that the fits state. */
struct Coverage : synthetic::Calibration
{
    int drums = 0, fitted = 0;
};

Coverage coverageOf (unsigned first, int drums, double signalToNoise, LineDrum::Errors errors,
                     LineDrum::Kind kind = LineDrum::Kind::snare)
{
    Coverage coverage;
    coverage.drums = drums;

    for (unsigned seed = first; seed < first + static_cast<unsigned> (drums); ++seed)
    {
        const LineDrum drum (seed, usualModelError, signalToNoise, errors, kind);
        const auto fit = fitDrum ({ .drum = drum.believed }, drum.lines, 6);

        if (! fit.isPossible)
            continue;

        ++coverage.fitted;

        for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
        {
            const bool isBatter = side == modal::HeadSide::batter;

            if ((isBatter ? fit.answers[0].batter : fit.answers[0].resonant).tension.value <= 0.0)
                continue;

            const auto [low, high] = tensionRange (fit.answers, side);
            const double truth = isBatter ? drum.tensions.batter : drum.tensions.resonant;
            coverage.count (low < truth && truth < high);
        }
    }

    return coverage;
}

} // namespace

TEST_CASE ("Errors of modes: correlated with neighbours of the same head, one error for two partners")
{
    modal::Mode low, near, far, other;
    low.frequency = 200.0;
    near.frequency = 220.0;
    far.frequency = 900.0;
    other.frequency = 200.0;
    low.m = near.m = far.m = 1;
    other.m = 2;
    low.shares.batter = near.shares.batter = far.shares.batter = 1.0;
    other.shares.resonant = 1.0;
    const auto correlation = errorCorrelation ({ low, near, far, other, low });
    CHECK (correlation (0, 4) == Approx (1.0));
    CHECK (correlation (0, 1) > 0.45);
    CHECK (correlation (0, 2) < 0.01);
    CHECK (correlation (0, 3) == Approx (0.0).margin (1.0e-12));
    CHECK (correlation.isApprox (correlation.transpose()));
}

TEST_CASE ("A faint second line of one mode makes no tension surer: both lines share the mode's error")
{
    // The resonant head is heard in (0,1) alone, whose error of 18 cents no second line of (0,1) can take out.
    DrumSpec drum;
    const auto modes = DrumModel (drum, 700.0, 7).modesAt (2800.0, 3000.0);
    std::vector<Line> lines;

    for (const auto& [mode, audibility, gradient] : modes)
        if (mode.n == 1 && (mode.m == 0 || mode.shares.batter > 20.0 * mode.shares.resonant) && lines.size() < 6)
            lines.push_back ({ .frequency = mode.frequency,
                               .error = 0.1,
                               .decay = mode.decay.total(),
                               .decayError = 0.5,
                               .loudness = 1.0,
                               .strikes = 6 });

    const auto errorOf = [&]
    {
        const DrumFitSetup setup{ .drum = drum };
        DrumIteration fit (setup, lines, 2800.0, 3000.0);
        REQUIRE (fit.run());
        REQUIRE (fit.assigned.size() == lines.size());
        return std::sqrt (fit.posterior.covariance (1, 1));
    };
    const double alone = errorOf();
    auto faint = lines.front();
    faint.frequency *= 1.004;
    faint.loudness = 0.05;
    lines.insert (lines.begin() + 1, faint);
    CHECK (errorOf() > 0.9 * alone);
}

TEST_CASE ("Drums whose modes lie off the model's by tens of cents are fitted, their tensions in the ranges stated")
{
    const auto coverage = coverageOf (1, 8, 30.0, LineDrum::Errors::asAssumed);
    CHECK (coverage.fitted == coverage.drums);
    CHECK (coverage.told >= 15);
    CHECK (coverage.within >= coverage.told - 2);
}

TEST_CASE ("Toms of 8 to 18 inches are fitted, their tensions in the ranges stated")
{
    const auto coverage = coverageOf (1, 6, 30.0, LineDrum::Errors::asAssumed, LineDrum::Kind::tom);
    CAPTURE (coverage.fitted, coverage.told, coverage.within);
    CHECK (coverage.fitted >= coverage.drums - 1);
    CHECK (coverage.told >= 10);
    CHECK (coverage.within >= coverage.told - 2);
}

TEST_CASE ("A 12 x 9 inch drum with equal heads as recorded: 135 Hz, 231 and 234 Hz")
{
    // A recorded two-headed drum of about that size: lowest mode at rest 135 Hz, (1,1) at 231 to 234 Hz, a fast one at 256 to 259
    // Hz; T60 2 to 2.7, 2 and 0.45 s. Its heads are not known; the solver gives those notes with two of 10 mil at 1640 N/m.
    DrumSpec drum;
    drum.diameter = 12.0 * modal::units::inch;
    drum.depth = 9.0 * modal::units::inch;
    drum.resonant = drum.batter;
    const auto modes = DrumModel (drum, 300.0, 2).modesAt (1640.0, 1640.0);
    REQUIRE (modes.size() >= 3);
    CHECK (modes[0].mode.frequency == Approx (135.0).epsilon (0.01));
    CHECK (modes[1].mode.frequency == Approx (231.0).epsilon (0.02));
    CHECK (modes[2].mode.frequency == Approx (234.0).epsilon (0.02));

    const auto line = [] (double frequency, double decay, double loudness) {
        return Line{
            .frequency = frequency, .error = 0.2, .decay = decay, .decayError = 0.3, .loudness = loudness, .strikes = 3
        };
    };
    const std::vector<Line> lines{ line (135.0, 3.0, 1.0), line (231.0, 3.5, 0.8), line (234.0, 3.5, 0.8),
                                   line (257.5, 15.0, 0.3) };
    const auto fit = fitDrum ({ .drum = drum }, lines, 3);
    REQUIRE_FALSE (fit.answers.empty());

    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
    {
        const auto [low, high] = tensionRange (fit.answers, side);
        CHECK (low < 1640.0);
        CHECK (high > 1640.0);
    }
}

TEST_CASE ("A published snare drum's lowest four modes: tensions explain three within twice the model's stated error")
{
    // Rossing, Bork, Zhao & Fystrom, JASA 92 (1992) 84: a 36 cm snare drum has its (0,1) pair at 182 and 330 Hz and its (1,1)
    // pair at 278 and 341 Hz (from memory). Depth, heads and decays are not known; decays hardly count here. With 6.5 in of depth
    // and usual heads the model has the upper (1,1) at 329 Hz, 60 cents below the published one; a drum 5 in deep fits worse.
    DrumSpec drum;
    drum.depth = 6.5 * modal::units::inch;
    const std::array<double, 4> published{ 182.0, 278.0, 330.0, 341.0 };
    std::vector<Line> lines;

    for (const double frequency : published)
        lines.push_back (
            { .frequency = frequency, .error = 0.5, .decay = 10.0, .decayError = 5.0, .loudness = 0.8, .strikes = 3 });

    const auto fit = fitDrum ({ .drum = drum, .decayError = 2.0 }, lines, 3);
    REQUIRE (fit.isPossible);
    REQUIRE (fit.partials.size() >= 3);
    CHECK (fit.partials[0].mode.m == 0);
    CHECK (fit.partials[1].mode.m == 1);
    int explained = 0;

    for (const auto& partial : fit.partials)
        explained += std::abs (partial.cents) < 2.0 * usualModelError ? 1 : 0;

    CHECK (explained >= 3);
}

TEST_CASE ("Calibration over many drums and levels of noise", "[.long]")
{
    for (const double signalToNoise : { 40.0, 30.0, 20.0, 10.0 })
        for (const auto errors : { LineDrum::Errors::asAssumed, LineDrum::Errors::independent, LineDrum::Errors::alongPitch })
        {
            const auto coverage = coverageOf (1001, 200, signalToNoise, errors);
            CAPTURE (signalToNoise, static_cast<int> (errors), coverage.fitted, coverage.told, coverage.within);
            const double byChance = 2.0 * std::sqrt (0.95 * 0.05 / std::max (1, coverage.told));
            CHECK (std::abs (coverage.share() - 0.95) < 0.02 + byChance);
        }
}

TEST_CASE ("Each lug of an uneven head lies in the range stated: taps hear the even harmonics of the field alone")
{
    // (1,1), (2,1) and (3,1) beside lug j lie higher by half of the field's harmonic of twice their order there: first order of
    // perturbation theory (Worland, JASA 127 (2010) 525). Heads of 6, 8 and 10 lugs.
    constexpr double noise = 1.0, semitone = 0.12, share = semitone / 100.0; // cents; relative tension; the same by cent
    std::mt19937 random (5);
    std::normal_distribution<double> normal;

    for (const bool hasOneLugOff : { false, true })
    {
        synthetic::Calibration calibration;
        double errors = 0.0;

        for (int head = 0; head < 90; ++head)
        {
            const Eigen::Index lugs = 6 + 2 * (head % 3);
            const double scatter = std::exp2 (head % 6); // cents
            Eigen::VectorXd field (lugs), heard (3 * lugs);
            Eigen::MatrixXd byField (3 * lugs, lugs);

            for (auto& lug : field)
                lug = scatter * normal (random);

            if (hasOneLugOff)
                field[head % lugs] += 30.0 * normal (random);

            field.array() -= field.mean();

            for (Eigen::Index m = 0; m < 3; ++m)
                for (Eigen::Index j = 0; j < lugs; ++j)
                    for (Eigen::Index k = 0; k < lugs; ++k)
                        byField (m * lugs + j, k) = std::cos (2.0 * static_cast<double> ((m + 1) * (j - k)) *
                                                              modal::units::twoPi / static_cast<double> (lugs)) /
                                                    static_cast<double> (lugs);

            heard = byField * field;

            for (auto& cents : heard)
                cents += noise * normal (random);

            const LugData data{ byField.transpose() * byField / std::pow (noise * share, 2),
                                byField.transpose() * heard / (noise * noise * share) };
            const auto found = lugTensions (data, semitone);

            for (Eigen::Index k = 0; k < lugs; ++k)
            {
                const auto& [value, error] = found[static_cast<std::size_t> (k)];
                calibration.count (std::abs (value - share * field[k]) < 1.96 * error);
                errors += error / share;
            }
        }

        CAPTURE (hasOneLugOff, calibration.within, calibration.told, errors / calibration.told);
        CHECK (calibration.share() > 0.93);
        CHECK (calibration.share() < 0.975);
        CHECK (errors / calibration.told < 15.0);
    }
}

TEST_CASE ("Calibration of lug checks of simulated real heads", "[.long]")
{
    constexpr unsigned first = 4001, heads = 60;
    constexpr double ratios[] = { 40.0, 30.0, 20.0 };
    std::array<synthetic::Calibration, std::size (ratios)> notes, tensions;

    for (unsigned seed = first; seed < first + heads; ++seed)
    {
        const synthetic::LugCheckTrial trial (seed, false, synthetic::Mistake::none, synthetic::Played::asReal);

        for (std::size_t i = 0; i < std::size (ratios); ++i)
        {
            const auto outcome = trial.at (ratios[i]);
            notes[i].add (outcome.note);
            tensions[i].add (outcome.tension);
        }
    }

    for (std::size_t i = 0; i < std::size (ratios); ++i)
    {
        CAPTURE (ratios[i], notes[i].within, notes[i].told, tensions[i].within, tensions[i].told);
        const double byChance = 2.0 * std::sqrt (0.95 * 0.05 / notes[i].told);
        CHECK (std::abs (notes[i].share() - 0.95) < 0.02 + byChance);
        CHECK (std::abs (tensions[i].share() - 0.95) < 0.02 + byChance);
    }
}

TEST_CASE ("A tap note that a person read narrows the answer")
{
    const LineDrum drum (2, usualModelError, 20.0);
    const double note = modal::tapNote (drum.believed, modal::HeadSide::resonant, drum.tensions.resonant);
    const auto without = fitDrum ({ .drum = drum.believed }, drum.lines, 6);
    const auto with = fitDrum ({ .drum = drum.believed, .resonantNote = Estimate{ note, 0.005 * note } }, drum.lines, 6);
    REQUIRE (without.isPossible);
    REQUIRE (with.isPossible);
    const auto widthOf = [] (const DrumFit& fit)
    {
        const auto [low, high] = tensionRange (fit.answers, modal::HeadSide::resonant);
        return high - low;
    };
    CHECK (widthOf (with) < widthOf (without));
}

namespace
{

/** Probability of the answers near the true tensions on the true heads. */
double probabilityOfTruth (const DrumFit& fit, const LineDrum& drum)
{
    constexpr double near = 0.15; // ln of tension
    double sum = 0.0;

    for (const auto& answer : fit.answers)
        if (std::abs (std::log (answer.batter.tension.value / drum.tensions.batter)) < near &&
            std::abs (std::log (answer.resonant.tension.value / drum.tensions.resonant)) < near &&
            answer.batter.construction.plyThickness == drum.believed.batter.plyThickness)
            sum += answer.probability;

    return sum;
}

} // namespace

TEST_CASE ("Strikes after a known turn of one head's rods decide between tunings: only its modes move")
{
    double without = 0.0, with = 0.0;

    // Of the first sixteen drums those that the strikes leave open: the true tuning among the answers, at less than 80 %.
    for (const unsigned seed : { 8u, 15u, 16u })
    {
        const LineDrum drum (seed, usualModelError, 20.0);
        auto turned = drum.tensions;
        turned.resonant *= 1.08;
        DrumFitSetup setup{ .drum = drum.believed };
        without += probabilityOfTruth (fitDrum (setup, drum.lines, 6), drum) / 3.0;
        setup.turned = TurnedHead{ .side = modal::HeadSide::resonant, .turns = 0.125, .lines = drum.linesAt (turned) };
        with += probabilityOfTruth (fitDrum (setup, drum.lines, 6), drum) / 3.0;
    }

    CAPTURE (without, with);
    CHECK (with > without + 0.1); // measured: 0.76 and 0.95; of the first 24 drums 0.82 and 0.85
}

TEST_CASE ("A weight in the middle of a head of unknown film decides which film it is")
{
    double without = 0.0, with = 0.0;

    // Of the first twelve drums those that the strikes alone leave open: the true film at less than 90 %.
    for (const unsigned seed : { 2u, 3u, 6u, 8u, 11u })
    {
        const LineDrum drum (seed, usualModelError, 30.0);
        DrumFitSetup setup{ .drum = drum.believed };
        auto thicker = drum.believed.batter;
        thicker.plyThickness *= 1.35;
        setup.otherBatters = { thicker };
        without += probabilityOfTruth (fitDrum (setup, drum.lines, 6), drum) / 5.0;
        setup.weighted = WeightedHead{ .mass = 2.0e-3, .lines = drum.linesWithWeight (2.0e-3) };
        with += probabilityOfTruth (fitDrum (setup, drum.lines, 6), drum) / 5.0;
    }

    CAPTURE (without, with);
    CHECK (with > without + 0.1); // measured: 0.55 and 0.76; of all twelve 0.78 and 0.88
}

TEST_CASE ("A drum of 12 or 13 inches: the answers say which, or that it is open")
{
    constexpr double inch = modal::units::inch;
    LineDrum drum (1, usualModelError, 30.0);
    const double stated = drum.believed.diameter;
    drum.believed.diameter = stated + inch;
    const auto fit = fitDrum ({ .drum = drum.believed, .otherDiameters = { stated } }, drum.lines, 6);
    REQUIRE (fit.isPossible);
    double right = 0.0, all = 0.0;

    for (const auto& answer : fit.answers)
    {
        all += answer.probability;

        if (std::abs (answer.diameter - stated) < 0.1 * inch)
            right += answer.probability;
    }

    CHECK (all <= Approx (1.0 - noneOfThese));
    CHECK (all > 0.9 * (1.0 - noneOfThese));
    CHECK (right > 0.05);
    CHECK_THROWS_AS (fitDrum ({ .drum = drum.believed, .otherDiameters = { 0.0 } }, drum.lines, 6), std::exception);
}

TEST_CASE ("What no drum rings like is refused")
{
    const auto refused = [] (const std::vector<Line>& lines)
    {
        const auto fit = fitDrum ({}, lines, 4);
        return ! fit.isPossible && contains (fit.findings, Finding::Severity::refusal);
    };
    const auto line = [] (double frequency, double decay, double loudness) {
        return Line{
            .frequency = frequency, .error = 0.2, .decay = decay, .decayError = 0.2, .loudness = loudness, .strikes = 4
        };
    };
    std::mt19937 random (5);
    const auto between = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };

    SECTION ("silence")
    {
        CHECK (refused ({}));
    }

    SECTION ("a cymbal: dense partials of equal strength that ring for seconds")
    {
        for (int cymbal = 0; cymbal < 3; ++cymbal)
        {
            std::vector<Line> lines;

            for (double frequency = 130.0; frequency < 1150.0; frequency += between (10.0, 35.0))
                lines.push_back (line (frequency, between (0.8, 2.5), between (0.3, 1.0)));

            CHECK (refused (lines));
        }
    }

    SECTION ("speech: harmonics of a voice")
    {
        for (const double voice : { 95.0, 110.0, 180.0 })
        {
            std::vector<Line> lines;

            for (int k = 1; k * voice < 1150.0; ++k)
                lines.push_back (line (k * voice, between (8.0, 20.0), between (0.3, 1.0)));

            CHECK (refused (lines));
        }
    }
}

TEST_CASE ("Strikes that were left out are predicted better than by a random drum")
{
    // Two halves of the strikes of one drum: the same modes, each half with its own noise, room and faint modes.
    const LineDrum drum (9, usualModelError, 30.0);
    std::vector<Line> used, leftOut;

    for (std::size_t i = 0; i < drum.lines.size(); ++i)
    {
        used.push_back (drum.lines[i]);

        if (i % 5 != 0)
            leftOut.push_back (drum.lines[i]);
    }

    const auto check = checkLeftOut ({ .drum = drum.believed }, used, 3, leftOut);
    REQUIRE (check.isFitted);
    CHECK (check.linesLeftOut.size() > 6);
    CHECK (check.model.share > 0.8);
    CHECK (check.model.share > check.vacuum.share);
    CHECK (check.model.share - check.model.byChance > check.random.share - check.random.byChance + 0.2);
}
