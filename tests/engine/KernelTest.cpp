#include "TestDrum.h"

#include "Engine/KernelDispatch.h"

#include "tests/Catch.h"

#include <cmath>
#include <string>

namespace
{

engine::DrumSetup withAllMicrophones (engine::DrumSetup setup)
{
    setup.microphones = engine::defaultMicrophones (setup.modes.depth);
    return setup;
}

} // namespace

TEST_CASE ("every inner loop plays the same drum, even or uneven")
{
    for (const auto& setup : { withAllMicrophones (testdrum::snare()), withAllMicrophones (testdrum::uneven()) })
    {
        const auto model = std::make_shared<engine::DrumModel> (setup);
        std::vector<float> reference;
        for (const std::string name : { "baseline", "avx2", "avx512" })
        {
            const auto kernel = engine::kernelNamed (name.c_str());
            if (kernel.name != name)
            {
                REQUIRE (name != "baseline");
                WARN ("this processor or this build has no loop for " + name);
                continue;
            }
            engine::Drum drum (model);
            drum.setKernel (kernel.run);
            drum.setTolerance (1.0e-7, 0.0, 60);
            drum.strike (engine::Stroke{});
            const auto sound = testdrum::listen (drum, 960);
            if (reference.empty())
                reference = sound;
            double power = 0.0, difference = 0.0;
            for (std::size_t i = 0; i < sound.size(); ++i)
            {
                power += static_cast<double> (reference[i] * reference[i]);
                difference += std::pow (static_cast<double> (sound[i] - reference[i]), 2);
            }
            INFO (name << ", classes " << drum.state().classes);
            CHECK (power > 0.0);
            CHECK (difference < 1.0e-4 * power);
        }
    }
}

TEST_CASE ("single precision follows double precision for the first milliseconds, before rattling wires make them differ")
{
    const auto setup = withAllMicrophones (testdrum::snare());
    engine::Drum fast (std::make_shared<engine::DrumModel> (setup));
    engine::ExactDrum exact (std::make_shared<engine::ExactDrumModel> (setup));
    fast.strike (engine::Stroke{});
    exact.strike (engine::Stroke{});
    const auto a = testdrum::listen (fast, 480);
    const auto b = testdrum::listen (exact, 480);
    double power = 0.0, difference = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
    {
        power += b[i] * b[i];
        difference += std::pow (static_cast<double> (a[i]) - b[i], 2);
    }
    CHECK (difference < 1.0e-3 * power);
}

// Denormal numbers would make the inner loop many times slower; the time itself is in engine-benchmark.
TEST_CASE ("a decaying drum never holds denormal numbers, and falls asleep")
{
    auto setup = withAllMicrophones (testdrum::snare());
    setup.wires.on = false;
    for (auto& mode : setup.modes.modes)
        mode.decay = { .film = 100.0 }; // below the normal range of single precision within a second
    setup.modes.modes.front().decay = { .film = 1.0 };
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.strike (engine::Stroke{});
    for (int i = 0; i < 40; ++i)
    {
        testdrum::run (drum, 2400);
        REQUIRE_FALSE (drum.isSilent());
        for (int k = 0; k < drum.state().modes; ++k)
        {
            REQUIRE (std::fpclassify (drum.state().position[k]) != FP_SUBNORMAL);
            REQUIRE (std::fpclassify (drum.state().step[k]) != FP_SUBNORMAL);
        }
    }
    testdrum::run (drum, 20 * 48000);
    CHECK (drum.isSilent());
}

TEST_CASE ("silence is exactly zero until the stroke lands")
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (withAllMicrophones (testdrum::snare())));
    auto sound = testdrum::listen (drum, 300);
    for (const float x : sound)
        REQUIRE (x == 0.0f);
    drum.strike (engine::Stroke{}, 100);
    sound = testdrum::listen (drum, 300);
    for (std::size_t i = 0; i < 100; ++i)
        REQUIRE (sound[i] == 0.0f);
    double later = 0.0;
    for (std::size_t i = 101; i < 110; ++i)
        later = std::max (later, static_cast<double> (std::abs (sound[i])));
    CHECK (later > 0.0);
}
