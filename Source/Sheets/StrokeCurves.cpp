#include "StrokeCurves.h"

#include "Modal/Units.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace sheets
{
namespace
{

constexpr double spectrumTime = 0.5; // s of the stroke that the spectrum covers
constexpr int paddingFactor = 2;     // so that the narrowest band, 4.8 Hz, holds several lines

/** Powers as dB below the greatest. */
std::vector<double> inDecibels (std::vector<double> powers)
{
    const double greatest = std::max (*std::max_element (powers.begin(), powers.end()), 1.0e-300);

    for (auto& p : powers)
        p = std::max (StrokeCurves::floor, 10.0 * std::log10 (std::max (p / greatest, 1.0e-30)));

    return powers;
}

std::vector<double> ringOf (const std::vector<float>& sound, double sampleRate)
{
    const auto interval = static_cast<std::size_t> (StrokeCurves::ringInterval * sampleRate);
    std::vector<double> powers;

    for (std::size_t at = 0; at + interval <= sound.size(); at += interval)
    {
        double power = 0.0;

        for (std::size_t i = at; i < at + interval; ++i)
            power += static_cast<double> (sound[i]) * sound[i];

        powers.push_back (power);
    }

    return inDecibels (powers);
}

/** Fades out over its second half, so that cutting a ringing drum does not widen its lines. */
std::vector<double> fadedOut (const std::vector<float>& sound, std::size_t length)
{
    std::vector<double> faded (length * paddingFactor, 0.0);
    const double half = 0.5 * static_cast<double> (length);

    for (std::size_t i = 0; i < length; ++i)
    {
        const double fade = std::max (0.0, static_cast<double> (i) - half) / half;
        faded[i] = sound[i] * 0.5 * (1.0 + std::cos (0.5 * modal::units::twoPi * fade));
    }

    return faded;
}

std::vector<double> spectrumOf (const std::vector<float>& sound, double sampleRate)
{
    const auto input = fadedOut (sound, static_cast<std::size_t> (spectrumTime * sampleRate));
    std::vector<std::complex<double>> lines;
    Eigen::FFT<double> fft;
    fft.fwd (lines, input);

    std::vector<double> powers (StrokeCurves::bands, 0.0);
    const double step = sampleRate / static_cast<double> (input.size());

    for (std::size_t i = 1; i < lines.size() / 2; ++i)
    {
        const double octaves = std::log2 (step * static_cast<double> (i) / StrokeCurves::lowestFrequency);
        const auto band = std::floor (octaves * StrokeCurves::bandsPerOctave);

        if (band >= 0.0 && band < StrokeCurves::bands)
            powers[static_cast<std::size_t> (band)] += std::norm (lines[i]);
    }

    return inDecibels (powers);
}

} // namespace

double StrokeCurves::frequencyOf (int band)
{
    return lowestFrequency * std::exp2 ((band + 0.5) / bandsPerOctave);
}

double StrokeCurves::timeTo (double level) const
{
    const auto last = std::find_if (ring.rbegin(), ring.rend(), [&] (double l) { return l > level; });
    return ringInterval * static_cast<double> (ring.rend() - last);
}

StrokeCurves curvesOf (const std::vector<float>& sound, double sampleRate)
{
    if (static_cast<double> (sound.size()) < spectrumTime * sampleRate)
        throw std::invalid_argument ("the curves of a stroke need half a second of sound");

    return { ringOf (sound, sampleRate), spectrumOf (sound, sampleRate) };
}

} // namespace sheets
