#include "StrokeEnergy.h"

#include "Performance.h"

#include "Modal/InputError.h"

#include <bit>
#include <cmath>
#include <complex>
#include <unsupported/Eigen/FFT>

namespace score
{

double distanceOf (const engine::Microphone& microphone) noexcept
{
    return std::hypot (microphone.x, microphone.y, microphone.z);
}

place::Octaves octaveEnergy (const std::vector<float>& samples, double sampleRate)
{
    std::vector<double> padded (std::bit_ceil (samples.size()), 0.0);
    std::copy (samples.begin(), samples.end(), padded.begin());
    Eigen::FFT<double> transform;
    std::vector<std::complex<double>> bins;
    transform.fwd (bins, padded);

    place::Octaves energy{};
    const double binsPerHertz = static_cast<double> (padded.size()) / sampleRate;
    for (std::size_t octave = 0; octave < energy.size(); ++octave)
    {
        const double from = place::octaveCentres[octave] / std::sqrt (2.0), to = std::min (2.0 * from, 0.5 * sampleRate);
        for (auto i = static_cast<std::size_t> (std::ceil (from * binsPerHertz)); static_cast<double> (i) < to * binsPerHertz;
             ++i)
            energy[octave] += 2.0 * std::norm (bins[i]) / (static_cast<double> (padded.size()) * sampleRate);
    }
    return energy;
}

place::Octaves strokeEnergy (const engine::DrumSetup& setup, const engine::Stroke& stroke)
{
    constexpr double listeningTime = 1.0; // s
    constexpr std::size_t block = 64;

    if (setup.microphones.empty())
        throw modal::InputError ("microphones", "none", "at least one");

    auto heard = setup;
    heard.microphones = { setup.microphones.back() };
    Performance performance (std::make_shared<const engine::DrumModel> (heard), { { 0.0, stroke } });

    std::vector<float> samples (block * static_cast<std::size_t> (listeningTime * setup.sampleRate / block));
    for (std::size_t at = 0; at < samples.size(); at += block)
    {
        float* output = samples.data() + at;
        performance.process (&output, static_cast<int> (block));
    }

    auto energy = octaveEnergy (samples, setup.sampleRate);
    const double pascal = engine::fullScalePressure * distanceOf (heard.microphones.front());
    for (auto& octave : energy)
        octave *= pascal * pascal;
    return energy;
}

} // namespace score
