#include "TestDrum.h"

#include "Engine/KernelDispatch.h"

#include "tests/Catch.h"

#include <cmath>
#include <ctime>
#include <string>

namespace
{

engine::DrumSetup heard (engine::DrumSetup setup)
{
    setup.microphones = engine::defaultMicrophones (setup.modes.depth);
    return setup;
}

double cpuSeconds()
{
    return static_cast<double> (std::clock()) / CLOCKS_PER_SEC;
}

} // namespace

TEST_CASE ("every inner loop plays the same drum, even or uneven")
{
    for (const auto& setup : { heard (testdrum::snare()), heard (testdrum::uneven()) })
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

TEST_CASE ("single precision follows double for the first milliseconds, before chattering wires part them")
{
    const auto setup = heard (testdrum::snare());
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

TEST_CASE ("a drum that dies away costs no more than one that rings, and falls asleep")
{
    auto setup = heard (testdrum::snare());
    for (auto& mode : setup.modes.modes)
        mode.decay = { .film = 4.0 };
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    drum.strike (engine::Stroke{});
    double dearest = 0.0;
    const double start = cpuSeconds();
    testdrum::run (drum, 48000);
    const double first = cpuSeconds() - start;
    for (int second = 1; second < 60; ++second)
    {
        const double begun = cpuSeconds();
        testdrum::run (drum, 48000);
        dearest = std::max (dearest, cpuSeconds() - begun);
    }
    INFO ("first second " << first << " s, dearest later " << dearest << " s");
    CHECK (dearest < 2.0 * first);
    CHECK (drum.isSilent());
}

TEST_CASE ("silence is exactly zero and the first sound comes with the stroke")
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (heard (testdrum::snare())));
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
