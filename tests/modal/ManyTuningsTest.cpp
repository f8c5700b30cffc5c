#include "Drums.h"

#include "Modal/Prediction.h"

#include "tests/Catch.h"

#include <random>

// One solver for many tunings of a drum against a solution of each by itself: the same to the last bit.

namespace
{

void checkSame (const modal::DrumModes& many, const modal::DrumModes& alone)
{
    REQUIRE (many.size() == alone.size());
    CHECK (many.batter == alone.batter);
    CHECK (many.resonant == alone.resonant);
    for (std::size_t i = 0; i < alone.modes.size(); ++i)
    {
        CHECK (many.modes[i].frequency == alone.modes[i].frequency);
        CHECK (many.modes[i].decay.total() == alone.modes[i].decay.total());
    }
}

/** Drums that differ in what surrounds their heads. */
std::vector<modal::DrumSpec> kinds()
{
    auto closed = drums::snare();
    closed.bottom = modal::Bottom::closed;
    auto open = drums::snare();
    open.bottom = modal::Bottom::open;
    auto baffled = drums::snare();
    baffled.surround = modal::Surround::baffled;
    auto muffled = drums::snare();
    muffled.muffling.push_back ({});
    return { drums::snare(), closed, open, baffled, muffled };
}

} // namespace

TEST_CASE ("A shared solver's modes are those of single solutions", "[many]")
{
    std::mt19937 random (16);
    std::uniform_real_distribution<double> spread (0.0, 1.0);
    const modal::SolveOptions options{ .highestFrequency = 900.0 };

    for (const auto& drum : kinds())
    {
        const modal::DrumSolver solver (drum, options);
        for (int i = 0; i < 8; ++i)
        {
            const modal::Tensions tensions{ 300.0 * std::pow (20.0, spread (random)), 200.0 * std::pow (20.0, spread (random)) };
            const auto alone = modal::solve (drum, tensions, options);
            CAPTURE (tensions.batter, tensions.resonant);
            checkSame (solver.solve (tensions), alone);
            CHECK (solver.drumNote (tensions) == modal::drumNote (alone));
        }
    }
}

TEST_CASE ("A shared tuner finds the tensions that single searches find", "[many]")
{
    const auto drum = drums::snare();
    const modal::DrumTuner tuner (drum);
    modal::Tuning tuning;

    for (const double batter : { 180.0, 261.6, 330.0 })
    {
        tuning.target = modal::ByTapNotes{ batter, 1.3 * batter };
        const auto many = tuner.tensionsFor (tuning), alone = modal::tensionsFor (drum, tuning);
        CHECK (many.batter == alone.batter);
        CHECK (many.resonant == alone.resonant);

        tuning.target = modal::ByDrumNote{ 0.6 * batter, { 5.0 } };
        CHECK (tuner.tensionsFor (tuning).batter == modal::tensionsFor (drum, tuning).batter);
    }
}
