#include "Drums.h"

#include "Modal/Prediction.h"
#include "tests/Catch.h"

// What drum technicians say. Common practice, no source.
namespace
{
const double semitone = std::pow (2.0, 1.0 / 12.0);

modal::Prediction tuned (const modal::Note& batter, const modal::Note& resonant)
{
    return modal::predict (drums::snare(), drums::tunedTo (modal::ByTapNotes{ batter.frequency(), resonant.frequency() }));
}
} // namespace

TEST_CASE ("Batter down a whole tone, resonant head held: a fourth becomes a fifth", "[trade]")
{
    const modal::Note batter{ 63 }, resonant{ 68 };
    const auto before = tuned (batter, resonant);
    CHECK (before.interval.name() == "P4");

    // Only the batter's rods are turned, so the resonant head keeps its tension; its tap note is not asked for but read off.
    const double lowered = modal::tensionForTapNote (drums::snare(), modal::HeadSide::batter, modal::Note{ 61 }.frequency());
    const auto after = modal::predict (
        drums::snare(), drums::tunedTo (modal::ByTension{ .batter = lowered, .resonant = before.resonant.tension }));
    CHECK (after.interval.name() == "P5");
    CHECK (after.resonant.tapNote == Approx (before.resonant.tapNote).epsilon (1.0e-9));
    CHECK (after.drumNote < before.drumNote);
    WARN ("fourth to fifth by the batter: drum note " << before.drumNote << " to " << after.drumNote << " Hz, batter tension "
                                                      << before.batter.tension << " to " << after.batter.tension << " N/m");
}

TEST_CASE ("Resonant head up a semitone: a major third becomes a fourth", "[trade]")
{
    const modal::Note batter{ 63 };
    const auto before = tuned (batter, modal::Note{ 67 });
    CHECK (before.interval.name() == "M3");

    const double raised = modal::tensionForTapNote (drums::snare(), modal::HeadSide::resonant, modal::Note{ 68 }.frequency());
    const auto after =
        modal::predict (drums::snare(), drums::tunedTo (modal::ByTension{ .batter = before.batter.tension, .resonant = raised }));
    CHECK (after.interval.name() == "P4");
    CHECK (after.batter.tapNote == Approx (before.batter.tapNote).epsilon (1.0e-9));
    CHECK (after.drumNote > before.drumNote);
}

TEST_CASE ("A semitone is about twelve per cent of tension", "[trade]")
{
    // 2^(1/6) − 1 = 12.246 % in vacuo: exact arithmetic. Air that moves along is mass and leaves the law as it is; only its
    // change with frequency, and the cavity's standing waves, make it a little different.
    auto vacuum = drums::snare();
    vacuum.air = modal::Air::vacuum();
    const auto inVacuo = modal::predict (vacuum, drums::tunedTo (modal::ByTension{ .batter = 3000.0, .resonant = 1500.0 }));
    CHECK (inVacuo.batter.semitoneTension == Approx (std::pow (2.0, 1.0 / 6.0) - 1.0).epsilon (1.0e-6));
    CHECK (inVacuo.resonant.semitoneTension == Approx (std::pow (2.0, 1.0 / 6.0) - 1.0).epsilon (1.0e-6));

    const auto inAir = modal::predict (drums::snare(), drums::tunedTo (modal::ByTension{ .batter = 3000.0, .resonant = 1500.0 }));
    WARN ("a semitone with air: batter " << 100.0 * inAir.batter.semitoneTension << " % of tension, resonant head "
                                         << 100.0 * inAir.resonant.semitoneTension << " %");

    // Against going a whole semitone up; the figure itself is a local law, and the law bends a little.
    const auto drum = drums::snare();
    const double batterUp = modal::tensionForTapNote (drum, modal::HeadSide::batter, inAir.batter.tapNote * semitone);
    const double resonantUp = modal::tensionForTapNote (drum, modal::HeadSide::resonant, inAir.resonant.tapNote * semitone);
    CHECK (inAir.batter.semitoneTension == Approx (batterUp / inAir.batter.tension - 1.0).epsilon (0.01));
    CHECK (inAir.resonant.semitoneTension == Approx (resonantUp / inAir.resonant.tension - 1.0).epsilon (0.01));
    CHECK (inAir.batter.semitoneTension == Approx (0.12).margin (0.02));
    CHECK (inAir.resonant.semitoneTension == Approx (0.12).margin (0.02));
}

TEST_CASE ("Frequency goes with the square root of tension", "[trade]")
{
    auto vacuum = drums::snare();
    vacuum.air = modal::Air::vacuum();
    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
    {
        CHECK (modal::tapNote (vacuum, side, 4000.0) / modal::tapNote (vacuum, side, 1000.0) == Approx (2.0).epsilon (1.0e-9));
        // The air in the cavity weighs more as the note nears the cavity's first cross resonance (some 560 Hz across 14 inches),
        // so a tap note rises by less than the root, the light resonant head's most of all.
        const double inAir = modal::tapNote (drums::snare(), side, 4000.0) / modal::tapNote (drums::snare(), side, 1000.0);
        WARN ("four times the tension, with air: tap note times " << inAir);
        CHECK (inAir < 2.0);
        CHECK (inAir > 1.8);
    }
}
