#include "TestDrum.h"
#include "ThirdOctaves.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

/** Sound of a stroke at a sample rate, decimated to 24 kHz by averaging. */
std::vector<double> stroke (double rate, bool wires, double seconds)
{
    auto setup = testdrum::snare (1500.0, rate);
    setup.wires.on = wires;
    if (! wires) // sample by sample only modes agree, above them it is the levels (ConvergenceTest.cpp)
    {
        setup.batterDensity = setup.resonantDensity = 0.0;
        // A hard tip needs the film's own give, which goes with its density: here a soft one.
        setup.stick = modal::pointMass (0.014, 8.0e5, 1.5, 0.25);
    }
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    engine::ExactDrum drum (std::make_shared<engine::ExactDrumModel> (setup));
    drum.strike (engine::Stroke{});
    const auto sound = testdrum::listen (drum, static_cast<int> (seconds * rate));
    const int step = static_cast<int> (rate / 24000.0);
    std::vector<double> thin;
    for (std::size_t i = 0; i + static_cast<std::size_t> (step) <= sound.size(); i += static_cast<std::size_t> (step))
    {
        double sum = 0.0;
        for (int j = 0; j < step; ++j)
            sum += sound[i + static_cast<std::size_t> (j)];
        thin.push_back (sum / step);
    }
    return thin;
}

} // namespace

TEST_CASE ("without wires a stroke has the same waveform at 48 kHz and at 192 kHz")
{
    const auto coarse = stroke (48000.0, false, 0.05), fine = stroke (192000.0, false, 0.05);
    double power = 0.0, difference = 0.0;
    for (std::size_t i = 0; i < coarse.size(); ++i)
    {
        power += fine[i] * fine[i];
        difference += (fine[i] - coarse[i]) * (fine[i] - coarse[i]);
    }
    INFO ("relative error " << std::sqrt (difference / power));
    CHECK (difference < 0.03 * 0.03 * power);
}

TEST_CASE ("with wires, levels in third octaves agree between 48 kHz and 192 kHz")
{
    const auto coarse = stroke (48000.0, true, 0.15), fine = stroke (192000.0, true, 0.15);
    double worst = 0.0, sum = 0.0;
    int bands = 0;
    for (double centre = 160.0; centre < 5000.0; centre *= std::pow (2.0, 1.0 / 3.0))
    {
        const auto energy = [&] (const std::vector<double>& sound) { return testdrum::bandEnergy (sound, 24000.0, centre, 6.0); };
        const double difference = std::abs (10.0 * std::log10 (energy (coarse) / energy (fine)));
        worst = std::max (worst, difference);
        sum += difference;
        ++bands;
    }
    // Wires rattle chaotically: single bands differ as between two strokes of one player.
    INFO ("worst " << worst << " dB, mean " << sum / bands << " dB");
    CHECK (worst < 4.0);
    CHECK (sum / bands < 1.5);
}
