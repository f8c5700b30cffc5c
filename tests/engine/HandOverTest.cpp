#include "TestDrum.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

engine::DrumSetup heard (engine::DrumSetup setup)
{
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    return setup;
}

engine::DrumSetup retuned (const engine::DrumSetup& setup, double factor)
{
    auto other = setup;
    other.tensions.batter *= factor;
    other.tensions.resonant *= factor;
    modal::SolveOptions options;
    options.highestFrequency = 1500.0;
    other.modes = modal::solve (modal::DrumSpec{}, other.tensions, options);
    return other;
}

template <typename Sound>
double largestStep (const Sound& sound, int from, int to)
{
    double most = 0.0;
    for (int i = from; i < to; ++i)
        most = std::max (
            most, std::abs (static_cast<double> (sound[static_cast<std::size_t> (i)] - sound[static_cast<std::size_t> (i - 1)])));
    return most;
}

} // namespace

TEST_CASE ("handing a ringing drum to its own model again changes next to nothing")
{
    const auto setup = heard (testdrum::snare());
    const auto model = std::make_shared<engine::ExactDrumModel> (setup);
    engine::ExactDrum left (model), right (model);
    left.strike (engine::Stroke{});
    right.strike (engine::Stroke{});
    testdrum::run (left, 2400);
    testdrum::run (right, 2400);
    right.setModel (std::make_shared<engine::ExactDrumModel> (setup));

    const auto before = left.energy(), after = right.energy();
    CHECK (after == Approx (before).epsilon (0.02));
    const auto a = testdrum::listen (left, 480), b = testdrum::listen (right, 480);
    double power = 0.0, difference = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
    {
        power += a[i] * a[i];
        difference += (a[i] - b[i]) * (a[i] - b[i]);
    }
    CHECK (difference < 0.01 * power);
}

TEST_CASE ("a new tuning takes over what rings, without a click")
{
    const auto setup = heard (testdrum::snare());
    const auto former = std::make_shared<engine::DrumModel> (setup);
    const auto next = std::make_shared<engine::DrumModel> (retuned (setup, 1.1));
    engine::Drum drum (former);
    drum.strike (engine::Stroke{});
    auto sound = testdrum::listen (drum, 4800);
    const double energyBefore = drum.energy();

    const auto returned = drum.setModel (next);
    CHECK (returned == former);
    CHECK (drum.energy() > 0.5 * energyBefore);
    CHECK (drum.energy() < 1.5 * energyBefore);
    const auto later = testdrum::listen (drum, 4800);
    sound.insert (sound.end(), later.begin(), later.end());

    // The step from the last sample before to the first after is of the size of steps nearby (a bare swap makes one ten times as
    // large).
    CHECK (largestStep (sound, 4799, 4803) <= 2.0 * largestStep (sound, 4320, 4799));
    CHECK (std::all_of (sound.begin(), sound.end(), [] (float x) { return std::isfinite (x); }));
}

TEST_CASE ("switching the strainer off and on while the drum rings stays finite and comes to rest")
{
    auto setup = heard (testdrum::snare());
    const auto on = std::make_shared<engine::DrumModel> (setup);
    setup.wires.on = false;
    const auto off = std::make_shared<engine::DrumModel> (setup);
    engine::Drum drum (on);
    for (int i = 0; i < 20; ++i)
    {
        engine::Stroke stroke;
        stroke.speed = 6.0;
        drum.strike (stroke, 100);
        drum.setModel (i % 2 == 0 ? off : on);
        const auto sound = testdrum::listen (drum, 1111);
        REQUIRE (std::all_of (sound.begin(), sound.end(), [] (float x) { return std::isfinite (x) && std::abs (x) < 20.0f; }));
    }
    testdrum::run (drum, 48000 * 8);
    CHECK (drum.isSilent());
}
