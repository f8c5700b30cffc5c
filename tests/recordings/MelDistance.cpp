#include "MelDistance.h"

#include "Measures.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace recordings
{

namespace
{
/** O'Shaughnessy's form of the mel scale. */
double mel (double frequency)
{
    return 2595.0 * std::log10 (1.0 + frequency / 700.0);
}

/** Weight of a frequency in a band: a triangle on the mel scale whose feet are the middles of its neighbours. */
double weight (double frequency, int band)
{
    const double spacing = (mel (MelSpectrogram::highest) - mel (MelSpectrogram::lowest)) / (MelSpectrogram::bands + 1);
    const double middle = mel (MelSpectrogram::lowest) + (band + 1) * spacing;
    return std::max (0.0, 1.0 - std::abs (mel (frequency) - middle) / spacing);
}
} // namespace

MelSpectrogram melSpectrogram (const listening::Recording& stroke)
{
    const double rate = stroke.sampleRate;
    const auto length = static_cast<std::size_t> (std::lround (MelSpectrogram::frame * rate));
    const auto size = transformSize (2 * length);
    std::vector<std::vector<double>> weights;

    for (int band = 0; band < MelSpectrogram::bands; ++band)
    {
        auto& row = weights.emplace_back();
        for (std::size_t bin = 0; bin <= size / 2; ++bin)
            row.push_back (weight (static_cast<double> (bin) * rate / static_cast<double> (size), band));
    }

    MelSpectrogram spectrogram;
    double loudest = 0.0;

    for (double time = 0.0; (time + MelSpectrogram::frame) * rate <= static_cast<double> (stroke.samples.size());
         time += MelSpectrogram::step)
    {
        const auto power = powerSpectrum ({ stroke.samples.data() + std::lround (time * rate), length }, size);
        auto& levels = spectrogram.levels.emplace_back();

        for (const auto& row : weights)
        {
            double sum = 0.0;
            for (std::size_t bin = 0; bin < row.size(); ++bin)
                sum += row[bin] * power[bin];
            levels.push_back (sum);
            loudest = std::max (loudest, sum);
        }
    }

    for (auto& levels : spectrogram.levels)
        for (auto& level : levels)
            level =
                std::max (MelSpectrogram::floor, 10.0 * std::log10 (std::max (level, 1.0e-300) / std::max (loudest, 1.0e-300)));

    return spectrogram;
}

double distance (const MelSpectrogram& a, const MelSpectrogram& b)
{
    double sum = 0.0;
    int cells = 0;

    for (std::size_t i = 0; i < std::min (a.levels.size(), b.levels.size()); ++i)
        for (std::size_t band = 0; band < MelSpectrogram::bands; ++band)
            if (const double x = a.levels[i][band], y = b.levels[i][band]; std::max (x, y) > MelSpectrogram::floor)
            {
                sum += (x - y) * (x - y);
                ++cells;
            }

    return cells > 0 ? std::sqrt (sum / cells) : 0.0;
}

double distanceToNearest (const MelSpectrogram& stroke, const std::vector<MelSpectrograms>& kits)
{
    double nearest = std::numeric_limits<double>::infinity();

    for (const auto& kit : kits)
    {
        std::vector<double> distances;
        for (const auto& other : kit)
            distances.push_back (distance (stroke, other));
        nearest = std::min (nearest, median (distances));
    }

    return nearest;
}

double relativeDistance (const MelSpectrograms& strokes, const std::vector<MelSpectrograms>& kits)
{
    std::vector<double> ours, theirs;

    for (const auto& stroke : strokes)
        ours.push_back (distanceToNearest (stroke, kits));

    for (std::size_t i = 0; i < kits.size(); ++i)
    {
        auto others = kits;
        others.erase (others.begin() + static_cast<std::ptrdiff_t> (i));
        for (const auto& stroke : kits[i])
            theirs.push_back (distanceToNearest (stroke, others));
    }

    return median (ours) / median (theirs);
}

} // namespace recordings
