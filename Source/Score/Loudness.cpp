#include "Loudness.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace score
{
namespace
{

double inDecibels (double meanSquare)
{
    return -0.691 + 10.0 * std::log10 (meanSquare);
}

double gatedMean (const std::vector<double>& blocks, double gate)
{
    double sum = 0.0;
    std::size_t count = 0;

    for (const double block : blocks)
        if (block > 0.0 && inDecibels (block) > gate)
        {
            sum += block;
            ++count;
        }

    return count > 0 ? sum / static_cast<double> (count) : 0.0;
}

/** The analogue prototypes that give the coefficients printed for 48 kHz; the numbers are from memory, and a test holds the
   result against the recommendation's tables 1 and 2. */
FilterSection shelfAt (double sampleRate)
{
    constexpr double corner = 1681.974450955533, gain = 3.999843853973347, q = 0.7071752369554196; // Hz, dB
    const double k = std::tan (modal::units::pi * corner / sampleRate);
    const double high = std::pow (10.0, gain / 20.0), band = std::pow (high, 0.4996667741545416);
    const double a0 = 1.0 + k / q + k * k;
    return { (high + band * k / q + k * k) / a0, 2.0 * (k * k - high) / a0, (high - band * k / q + k * k) / a0,
             2.0 * (k * k - 1.0) / a0, (1.0 - k / q + k * k) / a0 };
}

FilterSection highPassAt (double sampleRate)
{
    constexpr double corner = 38.13547087602444, q = 0.5003270373238773; // Hz
    const double k = std::tan (modal::units::pi * corner / sampleRate);
    const double a0 = 1.0 + k / q + k * k;
    return { 1.0, -2.0, 1.0, 2.0 * (k * k - 1.0) / a0, (1.0 - k / q + k * k) / a0 };
}

} // namespace

KWeighting::KWeighting (double sampleRate) : shelf (shelfAt (sampleRate)), highPass (highPassAt (sampleRate)) {}

LoudnessMeter::LoudnessMeter (double sampleRate, int channels)
    : weighting (sampleRate), shelfStates (static_cast<std::size_t> (channels)),
      highPassStates (static_cast<std::size_t> (channels)), hop (static_cast<int> (std::lround (0.1 * sampleRate)))
{
}

double LoudnessMeter::filtered (const FilterSection& s, State& state, double x) noexcept
{
    const double y = s.b0 * x + state.first;
    state.first = s.b1 * x - s.a1 * y + state.second;
    state.second = s.b2 * x - s.a2 * y;
    return y;
}

void LoudnessMeter::add (const float* const* channels, int frames)
{
    for (int i = 0; i < frames; ++i)
    {
        for (std::size_t c = 0; c < shelfStates.size(); ++c)
        {
            const double shelved = filtered (weighting.shelf, shelfStates[c], static_cast<double> (channels[c][i]));
            const double y = filtered (weighting.highPass, highPassStates[c], shelved);
            sum += y * y;
        }

        if (++inHop == hop)
        {
            hops.push_back (sum / hop);
            sum = 0.0;
            inHop = 0;
        }
    }
}

double LoudnessMeter::loudness (double gain) const
{
    constexpr double absoluteGate = -70.0, relativeGate = -10.0;
    std::vector<double> blocks;

    for (std::size_t i = 0; i + 4 <= hops.size(); ++i)
        blocks.push_back (0.25 * gain * gain * (hops[i] + hops[i + 1] + hops[i + 2] + hops[i + 3]));

    const double ungated = gatedMean (blocks, absoluteGate);

    if (ungated <= 0.0)
        return -std::numeric_limits<double>::infinity();

    return inDecibels (gatedMean (blocks, std::max (absoluteGate, inDecibels (ungated) + relativeGate)));
}

double LoudnessMeter::gainFor (double target) const
{
    const double loudestHop = hops.empty() ? 0.0 : *std::max_element (hops.begin(), hops.end());

    if (hops.size() < 4 || loudestHop <= 0.0)
        return 1.0;

    // The absolute gate makes loudness follow the gain inexactly, so it is measured again near the target.
    constexpr int rounds = 8;
    double gain = std::pow (10.0, (target - inDecibels (loudestHop)) / 20.0);

    for (int i = 0; i < rounds; ++i)
        gain *= std::pow (10.0, (target - loudness (gain)) / 20.0);

    return gain;
}

double loudness (const std::vector<float>& samples, double sampleRate)
{
    LoudnessMeter meter (sampleRate, 1);
    const float* channel = samples.data();
    meter.add (&channel, static_cast<int> (samples.size()));
    return meter.loudness();
}

} // namespace score
