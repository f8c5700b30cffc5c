#include "Brightness.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <complex>
#include <numbers>
#include <unsupported/Eigen/FFT>

namespace engine
{

double brightnessOf (const std::vector<float>& samples, double sampleRate)
{
    constexpr double lowest = 100.0, highest = 16000.0, loudnessExponent = 0.3;
    const double band = std::cbrt (2.0), halfBand = std::sqrt (band);

    // Fades out, so that cutting the sound off is no click; long enough for bins narrower than the lowest band.
    std::vector<double> faded (std::bit_ceil (std::max (samples.size(), static_cast<std::size_t> (sampleRate / 10.0))), 0.0);
    for (std::size_t i = 0; i < samples.size(); ++i)
        faded[i] = static_cast<double> (samples[i]) *
                   (0.5 + 0.5 * std::cos (std::numbers::pi * static_cast<double> (i) / static_cast<double> (samples.size())));
    Eigen::FFT<double> transform;
    std::vector<std::complex<double>> bins;
    transform.fwd (bins, faded);

    double loudness = 0.0, weighted = 0.0;
    for (double middle = lowest; middle <= std::min (highest, 0.5 * sampleRate / halfBand); middle *= band)
    {
        const double binsPerHertz = static_cast<double> (faded.size()) / sampleRate;
        double energy = 0.0;
        for (auto i = static_cast<std::size_t> (std::ceil (middle / halfBand * binsPerHertz));
             static_cast<double> (i) < middle * halfBand * binsPerHertz; ++i)
            energy += std::norm (bins[i]);
        loudness += std::pow (energy, loudnessExponent);
        weighted += std::pow (energy, loudnessExponent) * std::log2 (middle);
    }
    return loudness > 0.0 ? std::exp2 (weighted / loudness) : 0.0;
}

} // namespace engine
