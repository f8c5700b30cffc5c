#include "Drums.h"

#include "tests/Catch.h"

namespace
{
/** Largest shift in Hz of a mode below 1 kHz from one choice of basis to another. */
double largestShift (const modal::DrumSpec& drum, const modal::Tensions& tensions, const modal::SolveOptions& coarse,
                     const modal::SolveOptions& fine)
{
    const auto a = modal::solve (drum, tensions, coarse), b = modal::solve (drum, tensions, fine);
    double worst = 0.0;
    for (int i = 0; i < a.size() && a.modes[static_cast<std::size_t> (i)].frequency < 1000.0; ++i)
    {
        const auto& one = a.modes[static_cast<std::size_t> (i)];
        const auto& other = b.modes[static_cast<std::size_t> (i)];
        worst = std::max (worst, std::abs (one.frequency - other.frequency));
    }
    return worst;
}
} // namespace

TEST_CASE ("A finer solution moves no mode below 1 kHz by more than 0.2 Hz", "[convergence]")
{
    auto drum = drums::snare();
    drum.vent.diameter = 12.0e-3;
    drum.surround = GENERATE (modal::Surround::baffled, modal::Surround::freeStanding);
    drum.bottom = GENERATE (modal::Bottom::head, modal::Bottom::closed, modal::Bottom::open);
    drum.batter.dotDiameter = GENERATE (0.0, 0.1);
    drum.batter.dotThickness = drum.batter.dotDiameter > 0.0 ? 125.0e-6 : 0.0;
    const modal::Tensions tensions{ .batter = 3200.0, .resonant = 1800.0 };

    const modal::SolveOptions usual;
    const double moreFunctions = largestShift (drum, tensions, usual, { .extraFunctions = 4 * usual.extraFunctions });
    // Twice the band doubles the basis and keeps twice as many cavity waves as degrees of freedom.
    const double twiceTheBand = largestShift (drum, tensions, usual, { .highestFrequency = 2.0 * usual.highestFrequency });
    CAPTURE (moreFunctions, twiceTheBand);
    CHECK (moreFunctions < 0.2);
    CHECK (twiceTheBand < 0.2);
}
