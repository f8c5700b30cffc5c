#include "Loudness.h"

#include <cmath>
#include <cstddef>
#include <limits>
#include <stdexcept>

namespace sheets
{
namespace
{

/** A second order section in the recommendation's notation. */
class Section
{
public:
    Section (double b0_, double b1_, double b2_, double a1_, double a2_) : b0 (b0_), b1 (b1_), b2 (b2_), a1 (a1_), a2 (a2_) {}

    double process (double x) noexcept
    {
        const double y = b0 * x + first;
        first = b1 * x - a1 * y + second;
        second = b2 * x - a2 * y;
        return y;
    }

private:
    double b0, b1, b2, a1, a2, first = 0.0, second = 0.0;
};

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

} // namespace

double loudness (const std::vector<float>& samples, double sampleRate)
{
    if (sampleRate != 48000.0)
        throw std::invalid_argument ("loudness is measured at 48 kHz");

    // BS.1770-4, tables 1 and 2.
    Section shelf (1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585);
    Section highPass (1.0, -2.0, 1.0, -1.99004745483398, 0.99007225036621);

    constexpr std::size_t hop = 4800;
    std::vector<double> hops;
    double sum = 0.0;

    for (std::size_t i = 0; i < samples.size(); ++i)
    {
        const double y = highPass.process (shelf.process (static_cast<double> (samples[i])));
        sum += y * y;

        if ((i + 1) % hop == 0)
        {
            hops.push_back (sum / hop);
            sum = 0.0;
        }
    }

    std::vector<double> blocks;

    for (std::size_t i = 0; i + 4 <= hops.size(); ++i)
        blocks.push_back (0.25 * (hops[i] + hops[i + 1] + hops[i + 2] + hops[i + 3]));

    constexpr double absoluteGate = -70.0, relativeGate = -10.0;
    const double ungated = gatedMean (blocks, absoluteGate);

    if (ungated <= 0.0)
        return -std::numeric_limits<double>::infinity();

    return inDecibels (gatedMean (blocks, inDecibels (ungated) + relativeGate));
}

} // namespace sheets
