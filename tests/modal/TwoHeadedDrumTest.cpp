#include "Drums.h"

#include "tests/Catch.h"

// Fletcher & Rossing ch. 18 and Rossing, Bork, Zhao & Fystrom, JASA 92 (1992) 84, on a two-headed drum (from memory): the
// enclosed air couples the heads, strongly in the (0,1) pair and weakly in the (1,1) pair. In the lower (0,1) mode the heads move
// together and the air only goes along; in the upper one they move against each other and squeeze it. Their 36 cm snare drum has
// the pair at 182 and 330 Hz and the (1,1) pair at 278 and 341 Hz (from memory).
namespace
{
constexpr double publishedBreathing[2] = { 182.0, 330.0 };
constexpr double publishedRocking[2] = { 278.0, 341.0 };
} // namespace

TEST_CASE ("Equal heads move exactly in phase or exactly in opposite phase", "[twoheads]")
{
    auto drum = drums::snare();
    drum.resonant = drum.batter;
    drum.surround = GENERATE (modal::Surround::baffled, modal::Surround::freeStanding);
    const auto modes = modal::solve (drum, { .batter = 3000.0, .resonant = 3000.0 }, { .highestFrequency = 1200.0 });

    for (int m = 0; m <= 3; ++m)
        for (const auto& mode : drums::ofOrder (modes, m))
            if (! mode.isAirMode)
            {
                CAPTURE (m, mode.frequency, mode.headCorrelation);
                CHECK (std::abs (mode.headCorrelation) == Approx (1.0).epsilon (1.0e-6));
                CHECK (mode.shares.batter == Approx (mode.shares.resonant).epsilon (1.0e-6));
            }

    // (0,1): together below, against each other above, and far apart.
    const auto breathing = drums::ofOrder (modes, 0);
    CHECK (breathing[0].headCorrelation > 0.99);
    CHECK (breathing[1].headCorrelation < -0.99);
    CHECK (breathing[1].frequency / breathing[0].frequency > 1.4);

    // (1,1): against each other below, since the air then sloshes all the way from one side to the other and weighs more; close
    // to the other.
    const auto rocking = drums::ofOrder (modes, 1);
    CHECK (rocking[0].headCorrelation < -0.99);
    CHECK (rocking[1].headCorrelation > 0.99);
    CHECK (rocking[1].frequency / rocking[0].frequency < 1.4);
    CHECK (rocking[1].frequency / rocking[0].frequency < breathing[1].frequency / breathing[0].frequency);
}

TEST_CASE ("A snare drum has the published pattern of its lowest four modes", "[twoheads]")
{
    // The paper's drum is not described down to its tensions, so they are chosen to put the two (0,1) modes where it found them;
    // the (1,1) pair is then a result.
    auto drum = drums::snare();
    modal::Tensions tensions{ .batter = 3000.0, .resonant = 1500.0 };
    const auto pair = [&] (int m)
    {
        const auto modes = drums::ofOrder (modal::solve (drum, tensions, { .highestFrequency = 800.0 }), m);
        return std::pair{ modes[0], modes[1] };
    };

    for (int i = 0; i < 60; ++i)
    {
        // The lower mode answers to both tensions, the upper mostly to the light resonant head and the air between.
        const auto [lower, upper] = pair (0);
        const double scale = publishedBreathing[0] / lower.frequency;
        const double spread = (publishedBreathing[1] / publishedBreathing[0]) / (upper.frequency / lower.frequency);
        tensions.batter *= std::pow (scale, 1.0) / std::pow (spread, 0.5);
        tensions.resonant *= std::pow (scale, 1.0) * std::pow (spread, 0.5);
    }

    const auto [lower, upper] = pair (0);
    const auto [firstRocking, secondRocking] = pair (1);
    CAPTURE (tensions.batter, tensions.resonant, lower.frequency, upper.frequency, firstRocking.frequency,
             secondRocking.frequency);

    CHECK (lower.frequency == Approx (publishedBreathing[0]).epsilon (0.02));
    CHECK (upper.frequency == Approx (publishedBreathing[1]).epsilon (0.02));
    CHECK (lower.headCorrelation > 0.0);
    CHECK (upper.headCorrelation < 0.0);
    CHECK (firstRocking.frequency > lower.frequency);
    CHECK (firstRocking.frequency == Approx (publishedRocking[0]).epsilon (0.15));
    CHECK (secondRocking.frequency == Approx (publishedRocking[1]).epsilon (0.15));
    CHECK (secondRocking.frequency / firstRocking.frequency < upper.frequency / lower.frequency);
}
