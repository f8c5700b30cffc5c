#include "Score/Loudness.h"

#include "Modal/Units.h"
#include "tests/Catch.h"

#include <cmath>

using modal::units::twoPi;

namespace
{
std::vector<float> sine (double hertz, double seconds, double sampleRate, double amplitude = 1.0)
{
    std::vector<float> samples (static_cast<std::size_t> (seconds * sampleRate));

    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = static_cast<float> (amplitude * std::sin (twoPi * hertz * static_cast<double> (i) / sampleRate));

    return samples;
}

score::LoudnessMeter measured (const std::vector<float>& samples, int channels)
{
    score::LoudnessMeter meter (48000.0, channels);
    const std::vector<const float*> pointers (static_cast<std::size_t> (channels), samples.data());
    meter.add (pointers.data(), static_cast<int> (samples.size()));
    return meter;
}
} // namespace

TEST_CASE ("The K-weighting at 48 kHz has the coefficients that ITU-R BS.1770-4 prints")
{
    // Tables 1 and 2 of the recommendation.
    const score::KWeighting weighting (48000.0);
    CHECK (weighting.shelf.b0 == Approx (1.53512485958697).margin (1.0e-9));
    CHECK (weighting.shelf.b1 == Approx (-2.69169618940638).margin (1.0e-9));
    CHECK (weighting.shelf.b2 == Approx (1.19839281085285).margin (1.0e-9));
    CHECK (weighting.shelf.a1 == Approx (-1.69065929318241).margin (1.0e-9));
    CHECK (weighting.shelf.a2 == Approx (0.73248077421585).margin (1.0e-9));
    CHECK (weighting.highPass.b0 == 1.0);
    CHECK (weighting.highPass.b1 == -2.0);
    CHECK (weighting.highPass.b2 == 1.0);
    CHECK (weighting.highPass.a1 == Approx (-1.99004745483398).margin (1.0e-9));
    CHECK (weighting.highPass.a2 == Approx (0.99007225036621).margin (1.0e-9));
}

TEST_CASE ("A full-scale sine of 997 Hz has -3.01 LUFS at every rate")
{
    // ITU-R BS.1770-4: "If a 0 dB FS, 997 Hz sine wave is applied to the left, center, or right channel input, the indicated
    // loudness will equal -3.01 LKFS" (quoted from memory). The printed filter is for 48 kHz; at other rates the bilinear transform
    // moves its shelf by a few hundredths of a decibel at this frequency.
    for (const double rate : { 22050.0, 44100.0, 48000.0, 96000.0, 192000.0 })
    {
        CAPTURE (rate);
        CHECK (score::loudness (sine (997.0, 3.0, rate), rate) == Approx (-3.01).margin (rate == 48000.0 ? 0.005 : 0.05));
    }

    CHECK (std::isinf (score::loudness (std::vector<float> (48000, 0.0f), 48000.0)));
    CHECK (std::isinf (score::loudness (sine (997.0, 0.39, 48000.0), 48000.0)));
}

TEST_CASE ("Stereo sines and gated passages have the loudness that EBU Tech 3341 asks for")
{
    // EBU Tech 3341, minimum requirements signals 1 and 3 (from memory): a stereo sine of 1 kHz at -23 dB of full scale has -23.0
    // LUFS; 10 s at -36, 60 s at -23 and 10 s at -36 have -23.0 LUFS; both within 0.1.
    const auto amplitude = [] (double decibels) { return std::pow (10.0, decibels / 20.0); };
    CHECK (measured (sine (1000.0, 20.0, 48000.0, amplitude (-23.0)), 2).loudness() == Approx (-23.0).margin (0.1));

    const auto soft = sine (1000.0, 10.0, 48000.0, amplitude (-36.0));
    auto passages = soft;
    const auto loud = sine (1000.0, 60.0, 48000.0, amplitude (-23.0));
    passages.insert (passages.end(), loud.begin(), loud.end());
    passages.insert (passages.end(), soft.begin(), soft.end());
    CHECK (measured (passages, 2).loudness() == Approx (-23.0).margin (0.1));
}

TEST_CASE ("The gain for a loudness brings a decay to it")
{
    auto decay = sine (200.0, 3.0, 48000.0);

    for (std::size_t i = 0; i < decay.size(); ++i)
        decay[i] *= static_cast<float> (std::exp (-static_cast<double> (i) / 9600.0));

    for (const double target : { -14.0, -23.0, -50.0 })
    {
        const auto gain = measured (decay, 1).gainFor (target);
        auto scaled = decay;
        for (auto& sample : scaled)
            sample *= static_cast<float> (gain);
        CHECK (score::loudness (scaled, 48000.0) == Approx (target).margin (0.05));
    }

    CHECK (measured (std::vector<float> (48000, 0.0f), 1).gainFor (-23.0) == 1.0);
}
