#include "Spectrogram.h"

#include "Modal/Units.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <bit>
#include <cmath>
#include <complex>

namespace listening
{

double Spectrogram::at (double time, double frequency) const noexcept
{
    const double frame = std::round ((time - firstTime) / step), bin = std::floor (frequency / binWidth);

    if (frame < 0.0 || frame >= static_cast<double> (levels.size()) || bin < 0.0)
        return floor;

    const auto& row = levels[static_cast<std::size_t> (frame)];
    const auto below = static_cast<std::size_t> (bin);

    if (below + 1 >= row.size())
        return floor;

    const double part = frequency / binWidth - bin;
    return (1.0 - part) * row[below] + part * row[below + 1];
}

Spectrogram spectrogramOf (const Recording& recording, double from, double to, double step, double highest)
{
    const auto length = static_cast<std::size_t> (Spectrogram::window * recording.sampleRate);
    // Zeros after the frame, so that a line between two bins is drawn as high as one on a bin.
    const auto size = std::bit_ceil (2 * length);
    Spectrogram found{ .firstTime = from, .step = step, .binWidth = recording.sampleRate / static_cast<double> (size) };
    const auto bins = std::min (size / 2, static_cast<std::size_t> (highest / found.binWidth) + 2);
    Eigen::FFT<double> transform;
    std::vector<double> frame (size, 0.0);
    std::vector<std::complex<double>> spectrum;
    double loudest = 1.0e-30;

    for (double time = from; time <= to; time += step)
    {
        const auto first = static_cast<std::ptrdiff_t> ((time - 0.5 * Spectrogram::window) * recording.sampleRate);

        for (std::size_t i = 0; i < length; ++i)
        {
            const auto at = first + static_cast<std::ptrdiff_t> (i);
            const bool isInside = at >= 0 && at < static_cast<std::ptrdiff_t> (recording.samples.size());
            const double turn = modal::units::twoPi * (static_cast<double> (i) + 0.5) / static_cast<double> (length);
            frame[i] = isInside ? recording.samples[static_cast<std::size_t> (at)] * (0.5 - 0.5 * std::cos (turn)) : 0.0;
        }

        transform.fwd (spectrum, frame);
        auto& row = found.levels.emplace_back();

        for (std::size_t b = 0; b < bins; ++b)
        {
            row.push_back (std::norm (spectrum[b]));
            loudest = std::max (loudest, row.back());
        }
    }

    for (auto& row : found.levels)
        for (auto& level : row)
            level = std::max (Spectrogram::floor, 10.0 * std::log10 (std::max (level / loudest, 1.0e-30)));

    return found;
}

} // namespace listening
