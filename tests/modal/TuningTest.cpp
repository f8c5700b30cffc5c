#include "Drums.h"

#include "Modal/InputError.h"
#include "Modal/Prediction.h"
#include "reference/FullSolve.h"
#include "tests/Catch.h"

#include <cstdio>

namespace
{
struct Named
{
    const char* name;
    modal::DrumSpec drum;
};

std::vector<Named> variety()
{
    using modal::units::inch;
    using modal::units::mil;

    std::vector<Named> drums;
    for (const auto& [diameter, depth] : { std::pair{ 10.0, 5.0 }, { 12.0, 7.0 }, { 13.0, 3.0 }, { 14.0, 5.0 }, { 14.0, 8.0 } })
        for (const double batter : { 7.5, 10.0, 12.0 })
        {
            auto drum = drums::snare();
            drum.vent = {};
            drum.diameter = diameter * inch;
            drum.depth = depth * inch;
            drum.batter.plyThickness = batter * mil;
            drums.push_back ({ "plain", drum });
        }

    auto twoPly = drums::snare();
    twoPly.batter.plyThickness = 7.0 * mil;
    twoPly.batter.plies = 2;
    twoPly.surround = modal::Surround::baffled;
    drums.push_back ({ "two plies, baffled", twoPly });

    auto dotted = drums::snare();
    dotted.batter.dotDiameter = 0.1;
    dotted.batter.dotThickness = 5.0 * mil;
    dotted.batter.ringWidth = 0.02;
    dotted.batter.ringThickness = 5.0 * mil;
    drums.push_back ({ "dot and ring", dotted });
    return drums;
}
} // namespace

TEST_CASE ("Tap note and tension are inverse functions of each other", "[tuning]")
{
    for (const auto& [name, drum] : variety())
        for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
        {
            const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
            for (const double share : { 0.03, 0.1, 0.3, 0.7 })
            {
                const double tension = share * modal::yieldTension (head);
                const double note = modal::tapNote (drum, side, tension);
                CAPTURE (name, drum.diameter, drum.depth, share, note);
                CHECK (modal::tensionForTapNote (drum, side, note) == Approx (tension).epsilon (1.0e-6));
                CHECK (modal::tapNote (drum, side, modal::tensionForTapNote (drum, side, note)) ==
                       Approx (note).epsilon (1.0e-6));
            }
        }
}

TEST_CASE ("In a vacuum the tap note is the membrane's (1,1)", "[tuning]")
{
    auto drum = drums::snare();
    drum.air = modal::Air::vacuum();
    const double j11 = 3.8317059702075125;
    CHECK (modal::tapNote (drum, modal::HeadSide::batter, 3000.0) ==
           Approx (drums::vacuumFrequency (j11, drum.radius(), 3000.0, drum.batter.baseDensity())).epsilon (1.0e-9));
    CHECK (modal::tapNote (drum, modal::HeadSide::resonant, 1500.0) ==
           Approx (drums::vacuumFrequency (j11, drum.radius(), 1500.0, drum.resonant.baseDensity())).epsilon (1.0e-9));
}

TEST_CASE ("Tap notes agree with the roots of the full problem", "[tuning]")
{
    auto drum = drums::snare();
    drum.surround = modal::Surround::baffled;
    const double j11 = 3.8317059702075125;

    for (const double share : { 0.05, 0.12, 0.3 })
        for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
        {
            const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
            const double tension = share * modal::yieldTension (head), density = head.baseDensity();
            const reference::FullDrum full{ .radius = drum.radius(),
                                            .depth = drum.depth,
                                            .batterDensity = density,
                                            .batterTension = tension,
                                            .resonantDensity = 0.0,
                                            .resonantTension = 0.0,
                                            .airDensity = drum.air.density,
                                            .soundSpeed = drum.air.soundSpeed,
                                            .hasResonantHead = false,
                                            .stillExterior = {} };
            const double note = modal::tapNote (drum, side, tension);
            const double inVacuo = drums::vacuumFrequency (j11, drum.radius(), tension, density);
            CAPTURE (share, note, inVacuo);
            CHECK (note == Approx (reference::solveFully (full, 1, 700.0).front().frequency).epsilon (1.0e-3));
            CHECK (note < inVacuo);
        }
}

TEST_CASE ("All three ways to tune give the result that was asked for", "[tuning]")
{
    for (const auto& [name, drum] : variety())
    {
        CAPTURE (name, drum.diameter, drum.depth);
        const modal::Tensions asked{ .batter = 0.12 * modal::yieldTension (drum.batter),
                                     .resonant = 0.2 * modal::yieldTension (drum.resonant) };
        const auto byTension = modal::predict (drum, drums::tunedTo (modal::ByTension (asked)));
        CHECK (byTension.batter.tension == Approx (asked.batter));
        CHECK (byTension.resonant.tension == Approx (asked.resonant));

        const auto byNotes =
            modal::predict (drum, drums::tunedTo (modal::ByTapNotes{ byTension.batter.tapNote, byTension.resonant.tapNote }));
        CHECK (byNotes.batter.tension == Approx (asked.batter).epsilon (1.0e-6));
        CHECK (byNotes.resonant.tension == Approx (asked.resonant).epsilon (1.0e-6));
        CHECK (byNotes.interval.semitones ==
               Approx (12.0 * std::log2 (byTension.resonant.tapNote / byTension.batter.tapNote)).margin (1.0e-6));

        const auto byDrum = modal::predict (drum, drums::tunedTo (modal::ByDrumNote{ byTension.drumNote, byTension.interval }));
        CHECK (byDrum.drumNote == Approx (byTension.drumNote).epsilon (1.0e-6));
        CHECK (byDrum.interval.semitones == Approx (byTension.interval.semitones).margin (1.0e-5));
    }
}

TEST_CASE ("A drum note is reached within a cent or refused, also on open shells", "[tuning]")
{
    // On a deep open shell the drum note jumps where the air's own mode becomes the lowest.
    int reached = 0, refused = 0;
    for (const double diameter : { 0.25, 0.38 })
        for (const double depth : { 0.12, 0.32 })
            for (const double wanted : { 90.0, 130.0, 176.8, 244.0, 330.0 })
            {
                auto drum = drums::snare();
                drum.diameter = diameter;
                drum.depth = depth;
                drum.bottom = modal::Bottom::open;
                CAPTURE (diameter, depth, wanted);
                try
                {
                    const auto tensions = modal::tensionsFor (drum, drums::tunedTo (modal::ByDrumNote{ wanted, {} }));
                    CHECK (std::abs (modal::centsBetween (wanted, modal::drumNote (modal::solve (drum, tensions)))) < 1.0);
                    ++reached;
                }
                catch (const modal::InputError& error)
                {
                    CHECK (error.field() == "drum note");
                    // The notes on both sides of the gap can be had, and lie on both sides of what was asked for.
                    double below = 0.0, above = 0.0;
                    if (std::sscanf (error.allowed().c_str(), "up to %lf Hz or from %lf Hz", &below, &above) == 2)
                    {
                        CHECK (below < wanted);
                        CHECK (above > wanted);
                        for (const double note : { 0.998 * below, 1.002 * above })
                            CHECK_NOTHROW (modal::tensionsFor (drum, drums::tunedTo (modal::ByDrumNote{ note, {} })));
                        ++refused;
                    }
                }
            }
    CHECK (reached >= 10);
    CHECK (refused >= 2);
}

TEST_CASE ("A tap note is reached within a cent or refused, also in a deep shell", "[tuning]")
{
    // The closed cavity's own rocking mode takes over as a head's note passes it.
    auto drum = drums::snare();
    drum.diameter = 0.41;
    drum.depth = 0.34;
    int refused = 0;
    const auto range = modal::tapNoteRange (drum, modal::HeadSide::batter);
    for (double note = 1.1 * range.lowest; note < range.highest; note *= 1.03)
        try
        {
            const double tension = modal::tensionForTapNote (drum, modal::HeadSide::batter, note);
            CAPTURE (note, tension);
            CHECK (std::abs (modal::centsBetween (note, modal::tapNote (drum, modal::HeadSide::batter, tension))) < 1.0);
        }
        catch (const modal::InputError& error)
        {
            CHECK (error.field() == "batter tap note");
            ++refused;
        }
    CHECK (refused >= 1);
}

TEST_CASE ("A note that would make the head yield is refused, with the highest possible note", "[tuning]")
{
    const auto drum = drums::snare();
    for (const auto side : { modal::HeadSide::batter, modal::HeadSide::resonant })
    {
        const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
        CHECK (modal::yieldTension (head) == Approx (modal::Film::yieldStress * head.loadBearingThickness()));
        const double limit = modal::tapNote (drum, side, modal::yieldTension (head));
        CHECK_NOTHROW (modal::tensionForTapNote (drum, side, 0.999 * limit));
        CHECK_THROWS_AS (modal::tensionForTapNote (drum, side, 1.01 * limit), modal::InputError);
        CHECK_THROWS_AS (modal::tensionForTapNote (drum, side, -1.0), modal::InputError);
        CHECK_THROWS_AS (modal::tensionForTapNote (drum, side, 0.0), modal::InputError);
        CHECK_THROWS_AS (modal::tensionForTapNote (drum, side, std::nan ("")), modal::InputError);
    }

    CHECK_THROWS_AS (modal::solve (drum, { .batter = -1.0, .resonant = 1000.0 }), modal::InputError);
    CHECK_THROWS_AS (modal::solve (drum, { .batter = 1000.0, .resonant = std::nan ("") }), modal::InputError);
}

TEST_CASE ("Stress, share of yield strength and force per rod follow from tension by statics", "[tuning]")
{
    const auto drum = drums::snare();
    const auto prediction = modal::predict (drum, drums::tunedTo (modal::ByTension{ .batter = 3000.0, .resonant = 1500.0 }));
    CHECK (prediction.batter.stress == Approx (3000.0 / 254.0e-6));
    CHECK (prediction.batter.yieldShare == Approx (3000.0 / 254.0e-6 / modal::Film::yieldStress));
    CHECK (prediction.batter.forcePerLug == Approx (3000.0 * modal::units::pi * drum.diameter / drum.lugs));
    CHECK (prediction.resonant.stress == Approx (1500.0 / 76.2e-6));
    CHECK (prediction.resonant.forcePerLug == Approx (1500.0 * modal::units::pi * drum.diameter / drum.lugs));
}

TEST_CASE ("A prediction agrees with the modes that it is based on", "[prediction]")
{
    const auto drum = drums::snare();
    const modal::Tensions tensions{ .batter = 3000.0, .resonant = 1500.0 };
    const auto prediction = modal::predict (drum, drums::tunedTo (modal::ByTension (tensions)));
    const auto modes = modal::solve (drum, tensions);
    CHECK (prediction.drumNote == Approx (modal::drumNote (modes)));
    CHECK (prediction.drumNote == Approx (drums::ofOrder (modes, 0).front().frequency));

    REQUIRE (prediction.breathing.lower >= 0);
    REQUIRE (prediction.breathing.upper >= 0);
    REQUIRE (prediction.rocking.lower >= 0);
    REQUIRE (prediction.rocking.upper >= 0);
    const auto at = [&] (int index) { return prediction.modes[static_cast<std::size_t> (index)]; };
    CHECK (at (prediction.breathing.lower).m == 0);
    CHECK (at (prediction.breathing.upper).m == 0);
    CHECK (at (prediction.rocking.lower).m == 1);
    CHECK (at (prediction.rocking.upper).m == 1);
    CHECK (at (prediction.breathing.lower).frequency == Approx (prediction.drumNote));
    CHECK (prediction.sustain == Approx (at (prediction.breathing.lower).decay.t60()));

    // The sensitivities against retuning by a whole semitone: a derivative, so they agree to the curvature over a semitone.
    const double up = std::pow (2.0, 1.0 / 12.0);
    const auto retuned = [&] (double batter, double resonant)
    {
        const modal::ByTapNotes notes{ prediction.batter.tapNote * batter, prediction.resonant.tapNote * resonant };
        return modal::centsBetween (prediction.drumNote, modal::predict (drum, drums::tunedTo (notes)).drumNote);
    };
    CHECK (prediction.drumNotePerBatterSemitone == Approx (retuned (up, 1.0)).margin (2.0));
    CHECK (prediction.drumNotePerResonantSemitone == Approx (retuned (1.0, up)).margin (2.0));
}
