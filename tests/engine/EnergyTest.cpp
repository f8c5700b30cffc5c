#include "TestDrum.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

namespace
{

engine::Stroke anyStroke (std::mt19937& random)
{
    const auto uniform = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };
    engine::Stroke stroke;
    stroke.kind = static_cast<engine::StrokeKind> (random() % 6);
    stroke.position = uniform (0.0, 0.98);
    stroke.angle = uniform (0.0, modal::units::twoPi);
    stroke.speed = std::exp (uniform (std::log (0.01), std::log (12.0)));
    stroke.rimLag = uniform (-1.0e-3, 1.0e-3);
    stroke.pressForce = uniform (0.5, 40.0);
    stroke.pressTime = uniform (0.02, 0.1);
    stroke.secondDelay = uniform (0.02, 0.05);
    stroke.secondShare = uniform (0.1, 1.2);
    stroke.sweepForce = uniform (0.02, 3.0);
    stroke.sweepTime = uniform (0.05, 0.1);
    stroke.sweepsStraight = random() % 2 == 0;
    return stroke;
}

void anyPlayer (engine::DrumSetup& setup, std::mt19937& random)
{
    const auto uniform = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };
    const auto spread = [&] (double low, double high) { return std::exp (uniform (std::log (low), std::log (high))); };
    auto& wires = setup.wires;
    wires.on = random() % 8 != 0;
    wires.strands = 2 + static_cast<int> (random() % 59);
    wires.strandMass = spread (0.1e-3, 5.0e-3);
    wires.lengthShare = uniform (0.5, 0.96);
    wires.bedWidth = uniform (5.0e-3, 0.12);
    wires.strandTension = spread (0.05, 30.0);
    wires.pressDepth = uniform (-2.0e-3, 2.0e-3);
    wires.bedDepth = uniform (0.0, 5.0e-3);
    wires.bedSpan = uniform (0.02, 0.2);
    wires.unevenness = uniform (0.0, 0.5);
    wires.contactLoss = uniform (0.0, 10.0);
    wires.contactSize = spread (0.1e-3, 5.0e-3);
    wires.decayRate = uniform (0.0, 500.0);
    wires.decayPerOscillation = uniform (0.0, 0.5);
    modal::StickSpec stick;
    stick.length = uniform (0.2, 0.5);
    stick.diameter = uniform (8.0e-3, 22.0e-3);
    stick.taperLength = uniform (10.0e-3, 0.15);
    stick.tipDiameter = uniform (5.0e-3, 50.0e-3);
    stick.tipLength = uniform (5.0e-3, 50.0e-3);
    stick.neckDiameter = uniform (4.0e-3, 14.0e-3);
    stick.tipMaterial = static_cast<modal::StickSpec::TipMaterial> (random() % 3);
    stick.rodDiameter = random() % 4 == 0 ? uniform (0.5e-3, 8.0e-3) : 0.0;
    stick.brushWires = random() % 3 == 0 ? uniform (10.0, 300.0) : 0.0;
    stick.brushWireDiameter = spread (0.1e-3, 1.5e-3);
    stick.brushWireLength = uniform (40.0e-3, 0.2);
    stick.brushWidth = uniform (10.0e-3, 0.2);
    stick.brushMaterial = static_cast<modal::StickSpec::BrushMaterial> (random() % 2);
    setup.batterRoughness = spread (0.1e-6, 0.1e-3);
    stick.woodDensity = uniform (350.0, 1300.0);
    stick.woodModulus = uniform (4.0e9, 30.0e9);
    stick.fulcrum = uniform (0.4, 0.9);
    stick.gripStiffness = spread (1.0, 1.0e5);
    stick.gripDamping = uniform (0.0, 200.0);
    stick.handMass = spread (0.05, 2.0);
    stick.contactDamping = uniform (0.0, 10.0);
    setup.stick = modal::solveStick (stick);
    setup.laidStick = engine::laid (stick);
    for (auto* body : { &setup.stick, &setup.laidStick })
    {
        body->tipExponent = uniform (1.0, 4.0);
        body->tipStiffness = spread (1.0e3, 1.0e9);
        body->shaftStiffness = spread (1.0e4, 1.0e10);
    }
    setup.batterStretch = spread (1.0e4, 1.0e7);
    setup.resonantStretch = spread (1.0e4, 1.0e7);
    setup.batterDensity = spread (0.03, 2.0); // sets what the film gives beyond its modes, under stick and wires
    setup.resonantDensity = spread (0.03, 2.0);
    setup.batterBending = spread (1.0e-5, 1.0);
    setup.resonantBending = spread (1.0e-5, 1.0);
    setup.hoop.kind = static_cast<modal::HoopSpec::Kind> (random() % 4);
    setup.wireDetail.strands = 2 * (1 + static_cast<int> (random() % 5));
    setup.wireDetail.points = 2 * (2 + static_cast<int> (random() % 4));
    setup.wireDetail.modes = 1 + static_cast<int> (random() % static_cast<unsigned> (setup.wireDetail.points));
    const double rates[] = { 22050.0, 44100.0, 48000.0, 96000.0, 192000.0 };
    setup.sampleRate = rates[random() % 5];
}

/** Draws of their own, so that the drums stay the same when there is more to draw. */
void anyPlates (modal::WireSpec& wires, std::mt19937& random)
{
    const auto uniform = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };
    const auto spread = [&] (double low, double high) { return std::exp (uniform (std::log (low), std::log (high))); };
    wires.unevenPress = uniform (0.0, 1.0e-3);
    wires.bending = spread (1.0e-6, 0.01);
    wires.plateMass = spread (0.2e-3, 30.0e-3);
    wires.plateWidth = spread (2.0e-3, 30.0e-3);
    wires.strapLength = spread (3.0e-3, 60.0e-3);
    wires.strapLoss = uniform (0.0, 1.0);
}

int countFromEnvironment (const char* name, int otherwise)
{
    const char* text = std::getenv (name);
    return text != nullptr ? std::max (1, std::atoi (text)) : otherwise;
}

} // namespace

TEST_CASE ("without loss or input the energy stays within 1e-9 for ten seconds of rattling wires, on an uneven drum for two")
{
    for (const bool isUneven : { false, true })
    {
        auto setup = testdrum::lossless (isUneven ? testdrum::uneven (800.0) : testdrum::snare (800.0));
        engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (setup));
        REQUIRE (drum.state().classes == (isUneven ? 1 : 4));
        drum.countEnergy (true);
        engine::Stroke stroke;
        stroke.speed = 4.0;
        drum.strike (stroke);
        testdrum::run (drum, 9600);
        REQUIRE_FALSE (drum.state().sticks[0].active);

        const double start = drum.energy();
        REQUIRE (start > 1.0e-3);
        double worst = 0.0;
        const int turns = isUneven ? 200 : 1000;
        for (int i = 0; i < turns; ++i)
        {
            testdrum::run (drum, 480);
            worst = std::max (worst, std::abs (drum.energy() - start) / start);
        }
        INFO ("drift " << worst << " over " << drum.state().wireContacts << " closings of wire contacts");
        CHECK (worst < 1.0e-9);
        CHECK (drum.state().wireContacts > 20 * turns);
    }
}

// SNAREWRIGHT_RANDOM_DRUMS=10000 for the full run.
TEST_CASE ("whatever a user sets, energy never rises beyond the work put in, and every number stays finite")
{
    const int drums = countFromEnvironment ("SNAREWRIGHT_RANDOM_DRUMS", 60);
    std::mt19937 random (20240611), randomPlates (8446);
    std::vector<engine::DrumSetup> solved;
    for (int i = 0; i < 6; ++i)
    {
        modal::DrumSpec spec;
        spec.diameter = 0.20 + 0.05 * i;
        spec.depth = 0.08 + 0.06 * (i % 3);
        engine::DrumSetup setup;
        setup.tensions = { 800.0 + 900.0 * (i % 4), 600.0 + 700.0 * (i % 3) };
        modal::SolveOptions options;
        options.highestFrequency = 700.0;
        setup.modes = modal::solve (spec, setup.tensions, options);
        solved.push_back (setup);
    }

    for (int i = 0; i < drums; ++i)
    {
        auto setup = solved[static_cast<std::size_t> (i) % solved.size()];
        anyPlayer (setup, random);
        anyPlates (setup.wires, randomPlates);
        engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (setup));
        drum.countEnergy (true);
        const int block = static_cast<int> (0.004 * setup.sampleRate);
        double before = 0.0, largest = 0.0;
        for (int b = 0; b < 15; ++b)
        {
            if (b % 5 == 0)
                drum.strike (anyStroke (random), static_cast<int> (random() % static_cast<unsigned> (block)));
            const double workBefore = drum.energyFlows().work;
            testdrum::run (drum, block);
            const double now = drum.energy(), work = drum.energyFlows().work - workBefore;
            largest = std::max ({ largest, now, std::abs (drum.energyFlows().work) });
            INFO ("drum " << i << ", block " << b);
            REQUIRE (std::isfinite (now));
            REQUIRE (now - before <= work + 1.0e-9 * largest);
            REQUIRE (std::abs (testdrum::imbalance (drum)) <= 1.0e-8 * largest);
            REQUIRE (drum.energyFlows().contactLoss >= 0.0);
            REQUIRE (drum.energyFlows().modalLoss >= 0.0);
            before = now;
        }
        if (i % 1000 == 999)
            WARN (i + 1 << " drums");
    }
}

TEST_CASE ("with wires of any tension a soft stroke decays in single precision, and the drum sleeps")
{
    // The forces of a soft stroke are small beside strainer tension: what the solver leaves unconverged must not keep the wires
    // moving.
    struct Wires
    {
        double sampleRate, tension, press, strandMass, contactSize;
        int strands;
    };
    const auto set =
        GENERATE (Wires{ 22050.0, 30.0, 2.0e-3, 1.1e-3, 1.0e-3, 20 }, Wires{ 22050.0, 30.0, 2.0e-3, 1.1e-3, 0.3e-3, 20 },
                  Wires{ 22050.0, 12.0, 1.0e-3, 1.1e-3, 1.0e-3, 20 }, Wires{ 22050.0, 6.0, 2.0e-3, 1.1e-3, 1.0e-3, 20 },
                  Wires{ 48000.0, 1.9, 1.35e-3, 0.1e-3, 1.0e-3, 2 }, Wires{ 48000.0, 30.0, 2.0e-3, 1.1e-3, 0.3e-3, 20 });
    CAPTURE (set.sampleRate, set.tension, set.press, set.strandMass, set.contactSize, set.strands);
    auto setup = testdrum::snare (1500.0, set.sampleRate);
    setup.wires.strandTension = set.tension;
    setup.wires.pressDepth = set.press;
    setup.wires.strandMass = set.strandMass;
    setup.wires.contactSize = set.contactSize;
    setup.wires.strands = set.strands;
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    engine::Stroke stroke;
    stroke.speed = 0.25;
    drum.strike (stroke);
    testdrum::run (drum, static_cast<int> (5.0 * set.sampleRate));
    CHECK (drum.isSilent());
}

TEST_CASE ("single precision keeps the energy balance within its rounding and tolerance")
{
    auto setup = testdrum::snare();
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.countEnergy (true);
    double worst = 0.0, put = 0.0;
    for (int b = 0; b < 100; ++b)
    {
        if (b % 10 == 0)
            drum.strike (engine::Stroke{});
        testdrum::run (drum, 480);
        put = std::max (put, drum.energyFlows().work);
        worst = std::max (worst, testdrum::imbalance (drum));
    }
    INFO ("energy gained " << worst << " J of " << put << " J");
    CHECK (worst < 1.0e-3 * put);
}
