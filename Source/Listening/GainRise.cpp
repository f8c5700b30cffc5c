#include "GainRise.h"

#include "Envelope.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace listening
{
namespace
{

constexpr double noiseFrom = 3500.0, noiseTo = 9000.0;  // Hz: a drum without wires is gone there after 0.1 s
constexpr double fewestBefore = 0.05, mostBefore = 0.2; // s of noise before the blow
constexpr double riseFrom = 0.1, riseTo = 0.9;          // s after the blow
constexpr double gainFrame = 0.04;                      // s
constexpr double fallen = 0.5;                          // power of the noise after the blow over that before it, at most

/** The slope of a straight line by least squares. */
struct Trend
{
    double slope = 0.0, slopeError = 0.0;
};

Trend trendOf (const std::vector<double>& values, std::size_t first, double step)
{
    const auto count = static_cast<double> (values.size() - first);
    double mean = 0.0, moment = 0.0, squares = 0.0, left = 0.0;

    for (auto i = first; i < values.size(); ++i)
        mean += values[i] / count;

    const auto timeOf = [&] (std::size_t i) { return step * (static_cast<double> (i - first) - 0.5 * (count - 1.0)); };

    for (auto i = first; i < values.size(); ++i)
    {
        moment += timeOf (i) * values[i];
        squares += timeOf (i) * timeOf (i);
    }

    const double slope = moment / squares;

    for (auto i = first; i < values.size(); ++i)
        left += std::pow (values[i] - mean - slope * timeOf (i), 2);

    return { slope, std::sqrt (left / (count - 2.0) / squares) };
}

} // namespace

GainRise gainRiseOf (const Recording& recording, const Tap& tap)
{
    constexpr std::size_t fewest = 5; // frames
    constexpr double clearly = 4.0;   // standard deviations
    constexpr double unlike = 0.15;   // of the rate: gain does not rise exactly so
    const double begin = std::max (0.0, tap.start - mostBefore), end = std::min (tap.end, tap.lastBlow + riseTo);

    if (2.5 * noiseFrom > recording.sampleRate || tap.start - begin < fewestBefore)
        return {};

    const auto at = [&] (double time)
    {
        const auto sample = static_cast<std::size_t> (std::max (0.0, time) * recording.sampleRate);
        return recording.samples.begin() + static_cast<std::ptrdiff_t> (std::min (sample, recording.samples.size()));
    };
    const Recording part{ recording.sampleRate, { at (begin), at (end) } };
    const auto envelope = envelopeOf (part, noiseFrom, noiseTo, 0.1 * gainFrame);
    constexpr double edges = 0.01; // s, where the filter starts, and just before the blow
    const double before = envelope.mean (edges, tap.start - begin - edges);
    std::vector<double> levels; // ln power

    for (double t = tap.lastBlow + riseFrom - begin; t + gainFrame <= end - begin; t += gainFrame)
        levels.push_back (std::log (envelope.mean (t, t + gainFrame) + 1.0e-30));

    const auto lowest = std::min_element (levels.begin(), levels.end());
    const auto first = static_cast<std::size_t> (lowest - levels.begin()) + 1;

    if (levels.size() < first + fewest || *lowest > std::log (fallen * before + 1.0e-30))
        return {};

    const auto trend = trendOf (levels, first, gainFrame);

    if (trend.slope < clearly * trend.slopeError)
        return {};

    return { 0.5 * trend.slope, 0.5 * std::hypot (trend.slopeError, unlike * trend.slope) };
}

Recording withSteadyGain (Recording recording, const Tap& tap, const GainRise& gain)
{
    const auto first = static_cast<std::size_t> (tap.lastBlow * recording.sampleRate);
    const auto end = std::min (static_cast<std::size_t> (tap.end * recording.sampleRate), recording.samples.size());

    for (auto i = first; i < end; ++i)
        recording.samples[i] *= std::exp (-gain.rate * static_cast<double> (i - first) / recording.sampleRate);

    return recording;
}

} // namespace listening
