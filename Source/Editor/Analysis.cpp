#include "Analysis.h"

#include "Modal/Units.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <complex>

namespace editor
{
namespace
{

constexpr int spectrumPoints = 480;
constexpr double spectrumTime = 0.7, window = 8.0e-3, bandTime = 64.0e-3;

float decibels (double power)
{
    return static_cast<float> (10.0 * std::log10 (std::max (power, 1.0e-30)));
}

void belowPeak (std::vector<float>& levels)
{
    const float peak = levels.empty() ? 0.0f : *std::max_element (levels.begin(), levels.end());
    for (auto& level : levels)
        level -= peak;
}

std::vector<float> spectrumOf (const Analysis& scale, const std::vector<float>& samples, double rate)
{
    const auto wanted = std::min (samples.size(), static_cast<std::size_t> (spectrumTime * rate));
    std::size_t size = 1;
    while (size < 2 * wanted)
        size *= 2;
    std::vector<float> padded (size, 0.0f);
    // Half a Hann window, falling: a strike is loudest at its start.
    for (std::size_t i = 0; i < wanted; ++i)
        padded[i] =
            samples[i] *
            static_cast<float> (0.5 + 0.5 * std::cos (modal::units::pi * static_cast<double> (i) / static_cast<double> (wanted)));
    std::vector<std::complex<float>> bins;
    Eigen::FFT<float> transform;
    transform.fwd (bins, padded);

    std::vector<float> out (spectrumPoints);
    for (int i = 0; i < spectrumPoints; ++i)
    {
        // The strongest bin of the point, so that no narrow peak is lost.
        const double perHertz = static_cast<double> (size) / rate;
        const auto from = static_cast<std::size_t> (scale.frequencyOf (i - 0.5) * perHertz + 0.5);
        const auto to =
            std::min (std::max (static_cast<std::size_t> (scale.frequencyOf (i + 0.5) * perHertz + 0.5), from + 1), size / 2);
        double most = 0.0;
        for (auto bin = from; bin < to; ++bin)
            most = std::max (most, static_cast<double> (std::norm (bins[bin])));
        out[static_cast<std::size_t> (i)] = decibels (most);
    }
    return out;
}

} // namespace

double Analysis::frequencyOf (double index) const
{
    return lowest * std::pow (highest / lowest, index / (spectrumPoints - 1));
}

double Analysis::indexOf (double hertz) const
{
    return (spectrumPoints - 1) * std::log (hertz / lowest) / std::log (highest / lowest);
}

Analysis analyse (const std::vector<float>& samples, double rate, double note)
{
    Analysis result;
    if (samples.size() < 1024)
        return result;
    result.spectrum = spectrumOf (result, samples, rate);
    belowPeak (result.spectrum);

    result.timeStep = window;
    result.noteFrequency = note;
    const auto step = static_cast<std::size_t> (window * rate);
    const double smoothing = std::exp (-1.0 / (0.25 * bandTime * rate));
    std::complex<double> band = 0.0, smoother = 0.0, smoothest = 0.0;
    for (std::size_t start = 0; start + step <= samples.size(); start += step)
    {
        double power = 0.0;
        for (std::size_t i = start; i < start + step; ++i)
        {
            const double sample = static_cast<double> (samples[i]);
            power += sample * sample;
            const auto turned = std::polar (sample, -modal::units::twoPi * note * static_cast<double> (i) / rate);
            band += (1.0 - smoothing) * (turned - band);
            smoother += (1.0 - smoothing) * (band - smoother);
            smoothest += (1.0 - smoothing) * (smoother - smoothest);
        }
        result.level.push_back (decibels (power / static_cast<double> (step)));
        result.noteLevel.push_back (decibels (std::norm (smoothest)));
    }
    belowPeak (result.level);
    belowPeak (result.noteLevel);
    return result;
}

} // namespace editor
