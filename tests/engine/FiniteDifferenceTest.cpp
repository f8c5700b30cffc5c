#include "reference/FiniteDifferenceHead.h"
#include "tests/Catch.h"

#include "Engine/Drum.h"

#include <cmath>

namespace
{

constexpr double tension = 3200.0, highest = 3000.0;

modal::DrumSpec bareHead()
{
    modal::DrumSpec drum;
    drum.bottom = modal::Bottom::closed;
    drum.air = modal::Air::vacuum();
    return drum;
}

reference::FiniteDifferenceHead differences (const modal::DrumSpec& drum)
{
    return { tension, drum.batter.baseDensity(), drum.radius(), 240, highest };
}

} // namespace

TEST_CASE ("The first eight modes of a head agree with finite differences", "[engine][reference]")
{
    const auto drum = bareHead();
    const auto expected = differences (drum).frequencies();
    const auto found = modal::solve (drum, { tension, 0.0 }, { .highestFrequency = highest });
    std::size_t next = 0;

    for (const auto& mode : found.modes)
        if (mode.parity == modal::Parity::cosine && next < 8)
        {
            INFO ("(" << mode.m << "," << mode.n << ")");
            CHECK (mode.frequency == Approx (expected[next++]).epsilon (2e-4)); // (jh/a)²/24 of the differences
        }

    CHECK (next == 8);
}

TEST_CASE ("Without wires a stroke moves the head as in finite differences for 20 ms", "[engine][reference]")
{
    const auto drum = bareHead();
    engine::DrumSetup setup;
    setup.modes = modal::solve (drum, { tension, 0.0 }, { .highestFrequency = highest });
    setup.tensions = { tension, 0.0 };
    setup.wires.on = false;
    setup.batterStretch = 0.0; // the reference is linear
    setup.microphones = engine::defaultMicrophones (drum.depth);
    setup.sampleRate = 192000.0;

    for (auto& mode : setup.modes.modes)
        mode.decay = {}; // the reference has no losses

    const double strikeRadius = 0.3 * drum.radius(), listenRadius = 0.55 * drum.radius(), speed = 2.0;
    engine::Blow blow;
    blow.radius = strikeRadius;
    blow.speed = speed;
    const double mass = 0.020, stiffness = 4.0e5, exponent = 1.5;
    setup.stick = modal::pointMass (mass, stiffness, exponent);

    const auto model = std::make_shared<const engine::ExactDrumModel> (setup);
    engine::ExactDrum played (model);
    REQUIRE (played.strike (blow));

    const auto expected = differences (drum).strike (strikeRadius, listenRadius, mass, stiffness, exponent, speed,
                                                     setup.sampleRate, 0.020, 12);

    std::vector<double> heard (static_cast<std::size_t> (played.state().modes));
    model->headShape (listenRadius, 0.0, heard.data());

    std::array<double, 1> buffer{};
    std::array<double*, engine::maxMicrophones> outputs{ buffer.data(), buffer.data(), buffer.data() };
    double squaredError = 0.0, squared = 0.0;

    for (const double reference : expected)
    {
        double displacement = 0.0;

        for (int i = 0; i < played.state().modes; ++i)
            displacement += heard[static_cast<std::size_t> (i)] * played.state().position[i];

        squaredError += std::pow (displacement - reference, 2);
        squared += reference * reference;
        played.process (outputs.data(), 1);
    }

    const double error = std::sqrt (squaredError / squared);
    WARN ("20 ms after a stroke at 2 m/s the displacement differs by " << 100.0 * error << " % of its root mean square");
    CHECK (error < 0.01);
}
