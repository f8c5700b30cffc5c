#include "Measures.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace recordings
{

namespace
{
double energy (const Samples& samples)
{
    return std::inner_product (samples.begin(), samples.end(), samples.begin(), 0.0);
}

double decibels (double ratio)
{
    return 10.0 * std::log10 (std::max (ratio, 1.0e-30));
}

/** The first window from `from` on whose energy is no more than `limit`. */
std::optional<std::size_t> fallsTo (const std::vector<double>& windows, std::size_t from, double limit)
{
    for (auto i = from; i < windows.size(); ++i)
        if (windows[i] <= limit)
            return i;

    return std::nullopt;
}

constexpr double windowStep = 1.0e-3; // s

std::optional<double> decayTime (const std::vector<double>& windows, std::size_t loudest)
{
    const auto begin = fallsTo (windows, loudest, windows[loudest] * std::pow (10.0, -0.5));
    const auto end = fallsTo (windows, loudest, windows[loudest] * std::pow (10.0, -3.5));

    if (! begin || ! end)
        return std::nullopt;

    return 2.0 * windowStep * static_cast<double> (*end - *begin);
}

BandMeasures measureBand (const Samples& band, double rate, double lowEnergy)
{
    const auto windows = shortEnergies (band, rate);
    const auto loudest = static_cast<std::size_t> (std::max_element (windows.begin(), windows.end()) - windows.begin());
    const auto landing = static_cast<std::size_t> (std::lround (leadTime / windowStep));
    BandMeasures measures;
    measures.level = decibels (energy (band) / lowEnergy);
    measures.attack = decibels (windows[landing] / windows[loudest]);
    measures.peakTime = windowStep * static_cast<double> (loudest);
    measures.t60 = decayTime (windows, loudest);
    return measures;
}
} // namespace

listening::Recording strokeOf (const listening::Recording& recording)
{
    const auto& from = recording.samples;
    const auto louder = [] (double a, double b) { return std::abs (a) < std::abs (b); };
    const double peak = from.empty() ? 0.0 : std::abs (*std::max_element (from.begin(), from.end(), louder));
    const auto onset = std::find_if (from.begin(), from.end(), [&] (double x) { return std::abs (x) > 0.03 * peak; });
    const auto first = (onset - from.begin()) - std::lround (leadTime * recording.sampleRate);
    listening::Recording stroke{ recording.sampleRate, {} };

    for (long i = 0; i < std::lround (strokeTime * recording.sampleRate); ++i)
    {
        const auto at = first + i;
        const bool isInside = at >= 0 && at < static_cast<long> (from.size());
        stroke.samples.push_back (isInside ? from[static_cast<std::size_t> (at)] : 0.0);
    }

    return stroke;
}

std::vector<double> shortEnergies (const Samples& samples, double rate)
{
    std::vector<double> sums{ 0.0 };

    for (const double x : samples)
        sums.push_back (sums.back() + x * x);

    const auto sampleAt = [&] (double time) { return static_cast<std::size_t> (std::lround (time * rate)); };
    std::vector<double> energies;

    for (int i = 0; sampleAt (i * windowStep + windowTime) < sums.size(); ++i)
        energies.push_back (sums[sampleAt (i * windowStep + windowTime)] - sums[sampleAt (i * windowStep)]);

    return energies;
}

double aWeighting (double frequency)
{
    const double f = frequency * frequency;
    const auto corner = [f] (double hertz) { return f + hertz * hertz; };
    constexpr double low = 20.598997, one = 107.65265, two = 737.86223, high = 12194.217,
                     at1k = 2.0; // Hz, and dB that make 0 at 1 kHz
    return std::pow (10.0, at1k / 20.0) * high * high * f * f /
           (corner (low) * std::sqrt (corner (one) * corner (two)) * corner (high));
}

StrokeMeasures measure (const listening::Recording& stroke)
{
    std::array<Samples, octaves.size()> bands;

    for (std::size_t i = 0; i < octaves.size(); ++i)
        bands[i] = butterworthBand (stroke.samples, stroke.sampleRate, octaves[i], 2.0 * octaves[i]);

    const double low = energy (bands[0]) + energy (bands[1]);
    StrokeMeasures measures;
    measures.loudness = decibels (energy (stroke.samples));
    measures.loudnessA = decibels (energy (filtered (stroke.samples, stroke.sampleRate, aWeighting)));

    for (std::size_t i = 0; i < octaves.size(); ++i)
        measures.bands[i] = measureBand (bands[i], stroke.sampleRate, low);

    return measures;
}

double Glide::cents() const
{
    return 1200.0 * std::log2 (start / rest);
}

std::optional<Glide> glideOf (const listening::Recording& stroke, double low, double high)
{
    constexpr double restsFrom = 0.3, restsTo = 0.5, startsFrom = 0.012, startsTo = 0.045;
    const double rate = stroke.sampleRate;
    const auto at = [&] (double time) { return static_cast<std::size_t> (std::lround ((leadTime + time) * rate)); };

    if (stroke.samples.size() < at (restsTo))
        return std::nullopt;

    // The lowest mode at rest is the strongest line there.
    const std::span<const double> tail (stroke.samples.data() + at (restsFrom), at (restsTo) - at (restsFrom));
    const auto size = transformSize (static_cast<std::size_t> (4.0 * rate));
    const auto power = powerSpectrum (tail, size);
    const auto binAt = [&] (double frequency)
    { return static_cast<std::ptrdiff_t> (std::lround (frequency * static_cast<double> (size) / rate)); };
    const auto strongest = std::max_element (power.begin() + binAt (low), power.begin() + binAt (high));

    if (*strongest <= 0.0)
        return std::nullopt;

    Glide glide;
    glide.rest = static_cast<double> (strongest - power.begin()) * rate / static_cast<double> (size);
    const auto mode = analyticBand (stroke.samples, rate, 0.8 * glide.rest, 1.25 * glide.rest);

    // The phase from sample to sample, each weighted by its energy.
    std::complex<double> turned = 0.0;

    for (auto i = at (startsFrom); i < at (startsTo); ++i)
        turned += mode[i + 1] * std::conj (mode[i]);

    glide.start = std::arg (turned) * rate / (2.0 * std::numbers::pi);
    return glide;
}

double median (std::vector<double> values)
{
    std::sort (values.begin(), values.end());
    const auto n = values.size();
    return 0.5 * (values[(n - 1) / 2] + values[n / 2]);
}

} // namespace recordings
