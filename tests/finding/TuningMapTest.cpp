#include "MapDrum.h"

#include "tests/Catch.h"

#include "Modal/InputError.h"
#include "Modal/Prediction.h"

#include <random>

using finding::Figure;

namespace
{

constexpr modal::NoteRange someBatter{ 180.0, 260.0 }, someResonant{ 230.0, 330.0 };

std::shared_ptr<const finding::TuningMap> smallMap (unsigned threads)
{
    const std::atomic<bool> cancel{ false };
    return finding::TuningMap::make (mapped::tuner(), mapped::solver(), { someBatter, someResonant }, 100.0, threads, cancel);
}

} // namespace

TEST_CASE ("A map's tunings are those of single solutions, on one thread or several", "[map]")
{
    const auto one = smallMap (1), three = smallMap (3);

    for (std::size_t b = 0; b < one->batterNotes().size(); ++b)
        for (std::size_t r = 0; r < one->resonantNotes().size(); ++r)
        {
            modal::Tuning tuning;
            tuning.target = modal::ByTapNotes{ one->batterNotes()[b], one->resonantNotes()[r] };
            const auto single = modal::predict (mapped::drum(), tuning, mapped::solver().options());
            const auto& point = one->point (b, r);
            CAPTURE (b, r);
            CHECK (point.tensions.batter == single.batter.tension);
            CHECK (point.tensions.resonant == single.resonant.tension);
            CHECK (point.drumNote().frequency == single.drumNote);
            CHECK (point.drumNote().ring == single.sustain);
            CHECK (three->point (b, r).drumNote().frequency == point.drumNote().frequency);
        }
}

TEST_CASE ("Between its tunings a map is within two cents and one per cent of the solution", "[map]")
{
    std::mt19937 random (3);
    std::uniform_real_distribution<double> share (0.0, 1.0);
    const auto& area = mapped::area();
    double worstNote = 0.0, worstRing = 0.0, worstStress = 0.0;

    for (int i = 0; i < 60; ++i)
    {
        const double batter = area.batter.lowest * std::pow (area.batter.highest / area.batter.lowest, share (random));
        const double resonant = area.resonant.lowest * std::pow (area.resonant.highest / area.resonant.lowest, share (random));
        const auto here = mapped::map().at (batter, resonant, {});
        const auto solved = finding::figuresOf (mapped::tuner(), mapped::solver(), batter, resonant, {});
        worstNote =
            std::max (worstNote, std::abs (modal::centsBetween (of (here, Figure::drumNote), of (solved, Figure::drumNote))));
        worstRing = std::max (worstRing, std::abs (of (here, Figure::ring) / of (solved, Figure::ring) - 1.0));
        worstStress =
            std::max (worstStress, std::abs (of (here, Figure::batterStrength) / of (solved, Figure::batterStrength) - 1.0));
    }

    CAPTURE (worstNote, worstRing, worstStress);
    CHECK (worstNote < 2.0);
    CHECK (worstRing < 0.01);
    CHECK (worstStress < 0.01);
}

TEST_CASE ("The map's band gives the drum note of the whole band", "[map]")
{
    for (const double batter : { 170.0, 230.0, 300.0 })
        for (const double resonant : { 240.0, 320.0 })
        {
            modal::Tuning tuning;
            tuning.target = modal::ByTapNotes{ batter, resonant };
            const auto whole = modal::predict (mapped::drum(), tuning);
            const auto here = finding::figuresOf (mapped::tuner(), mapped::solver(), batter, resonant, {});
            CAPTURE (batter, resonant, whole.drumNote, of (here, Figure::drumNote));
            CHECK (std::abs (modal::centsBetween (whole.drumNote, of (here, Figure::drumNote))) < 4.0);
        }
}

TEST_CASE ("Along a contour of the map the solved drum note stays", "[map]")
{
    const double drumNote = of (mapped::map().at (220.0, 293.7, {}), Figure::drumNote);

    for (const double batter : { 190.0, 205.0, 235.0, 250.0 })
    {
        const auto resonant = mapped::map().resonantNoteFor (batter, drumNote);
        REQUIRE (resonant);
        const auto solved = finding::figuresOf (mapped::tuner(), mapped::solver(), batter, *resonant, {});
        CHECK (std::abs (modal::centsBetween (of (solved, Figure::drumNote), drumNote)) < 2.0);
    }

    CHECK_FALSE (mapped::map().resonantNoteFor (220.0, 1000.0));
}

TEST_CASE ("Every tuning in a drum's area can be tuned", "[map]")
{
    for (const double depth : { 0.08, 0.13, 0.3 })
    {
        auto spec = mapped::drum();
        spec.depth = depth;
        const modal::DrumTuner tuner (spec);
        const auto area = finding::areaOf (tuner);
        CAPTURE (depth, area.batter.lowest, area.batter.highest, area.resonant.lowest, area.resonant.highest);
        CHECK (area.batter.highest > 2.0 * area.batter.lowest);
        for (const double note : finding::notesBetween (area.batter, 200.0))
            CHECK_NOTHROW (tuner.notes (modal::HeadSide::batter).tensionFor (note));
        for (const double note : finding::notesBetween (area.resonant, 200.0))
            CHECK_NOTHROW (tuner.notes (modal::HeadSide::resonant).tensionFor (note));
    }
}

TEST_CASE ("Beyond what the heads can have a map knows nothing", "[map]")
{
    const auto outside = mapped::map().at (100.0, 300.0, {});
    CHECK (std::isnan (of (outside, Figure::drumNote)));
    const auto moves = mapped::map().at (200.0, 300.0, finding::Present{ 200.0, 300.0 * std::exp2 (2.0 / 12.0) });
    CHECK (of (moves, Figure::batterMove) == Approx (0.0).margin (1.0e-9));
    CHECK (of (moves, Figure::resonantMove) == Approx (-2.0));
}

TEST_CASE ("A map of a drum with one head is refused, and a cancelled one is none", "[map]")
{
    auto single = mapped::drum();
    single.bottom = modal::Bottom::closed;
    const modal::DrumTuner tuner (single);
    CHECK_THROWS_AS (finding::areaOf (tuner), modal::InputError);

    const std::atomic<bool> cancel{ true };
    CHECK (finding::TuningMap::make (mapped::tuner(), mapped::solver(), mapped::area(), 50.0, 2, cancel) == nullptr);
}
