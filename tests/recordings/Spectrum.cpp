#include "Spectrum.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <unsupported/Eigen/FFT>

namespace recordings
{

namespace
{
using Spectrum = std::vector<std::complex<double>>;

/** The Butterworth filters' squared magnitude. */
double bandGain (double frequency, double low, double high)
{
    if (frequency <= 0.0)
        return 0.0;

    return 1.0 / ((1.0 + std::pow (low / frequency, 8)) * (1.0 + std::pow (frequency / high, 8)));
}

Spectrum paddedSpectrum (const Samples& samples)
{
    Samples padded = samples;
    padded.resize (transformSize (2 * samples.size()), 0.0);
    Eigen::FFT<double> transform;
    Spectrum spectrum;
    transform.fwd (spectrum, padded);
    return spectrum;
}
} // namespace

std::size_t transformSize (std::size_t count)
{
    return std::bit_ceil (std::max<std::size_t> (count, 2));
}

Samples filtered (const Samples& samples, double rate, const std::function<double (double)>& gain)
{
    auto spectrum = paddedSpectrum (samples);
    const auto size = spectrum.size();

    for (std::size_t i = 0; i <= size / 2; ++i)
    {
        const double g = gain (static_cast<double> (i) * rate / static_cast<double> (size));
        spectrum[i] *= g;

        if (i > 0 && i < size / 2)
            spectrum[size - i] *= g;
    }

    Eigen::FFT<double> transform;
    Samples out;
    transform.inv (out, spectrum);
    out.resize (samples.size());
    return out;
}

Samples butterworthBand (const Samples& samples, double rate, double low, double high)
{
    return filtered (samples, rate, [&] (double frequency) { return bandGain (frequency, low, high); });
}

std::vector<std::complex<double>> analyticBand (const Samples& samples, double rate, double low, double high)
{
    auto spectrum = paddedSpectrum (samples);
    const auto size = spectrum.size();

    // Twice the positive frequencies and none of the negative: the definition of the analytic signal.
    for (std::size_t i = 0; i < size; ++i)
        spectrum[i] *=
            i <= size / 2 ? 2.0 * bandGain (static_cast<double> (i) * rate / static_cast<double> (size), low, high) : 0.0;

    Eigen::FFT<double> transform;
    Spectrum out;
    transform.inv (out, spectrum);
    out.resize (samples.size());
    return out;
}

std::vector<double> powerSpectrum (std::span<const double> samples, std::size_t size)
{
    Samples windowed (size, 0.0);

    for (std::size_t i = 0; i < samples.size(); ++i)
        windowed[i] = samples[i] * (0.5 - 0.5 * std::cos (2.0 * std::numbers::pi * (static_cast<double> (i) + 0.5) /
                                                          static_cast<double> (samples.size())));

    Eigen::FFT<double> transform;
    Spectrum spectrum;
    transform.fwd (spectrum, windowed);
    std::vector<double> power (size / 2 + 1);

    for (std::size_t i = 0; i < power.size(); ++i)
        power[i] = std::norm (spectrum[i]);

    return power;
}

} // namespace recordings
