#include "Envelope.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace listening
{
namespace
{

/** Second order Butterworth section by the bilinear transform. */
class Section
{
public:
    Section (double corner, double rate, bool isHighPass)
    {
        const double k = std::tan (std::numbers::pi * std::min (corner, 0.45 * rate) / rate);
        const double norm = 1.0 / (1.0 + std::numbers::sqrt2 * k + k * k);
        b0 = (isHighPass ? 1.0 : k * k) * norm;
        b1 = (isHighPass ? -2.0 : 2.0 * k * k) * norm;
        a1 = 2.0 * (k * k - 1.0) * norm;
        a2 = (1.0 - std::numbers::sqrt2 * k + k * k) * norm;
    }

    double process (double x) noexcept
    {
        const double y = b0 * x + first;
        first = b1 * x - a1 * y + second;
        second = b0 * x - a2 * y;
        return y;
    }

private:
    double b0, b1, a1, a2, first = 0.0, second = 0.0;
};

} // namespace

std::size_t Envelope::frameAt (double seconds) const noexcept
{
    const double frame = std::max (0.0, seconds / frameSeconds);
    return std::min (static_cast<std::size_t> (frame), power.size());
}

double Envelope::mean (double from, double to) const noexcept
{
    const auto first = frameAt (from), last = frameAt (to);
    double sum = 0.0;

    for (auto i = first; i < last; ++i)
        sum += power[i];

    return last > first ? sum / static_cast<double> (last - first) : 0.0;
}

Envelope envelopeOf (const Recording& recording, double lowCorner, double highCorner, double frameSeconds)
{
    const Section high (lowCorner, recording.sampleRate, true), low (highCorner, recording.sampleRate, false);
    std::array<Section, 4> sections{ high, high, low, low };
    const auto frame = std::max<std::size_t> (1, static_cast<std::size_t> (std::lround (frameSeconds * recording.sampleRate)));

    Envelope envelope;
    envelope.frameSeconds = static_cast<double> (frame) / recording.sampleRate;
    double sum = 0.0;

    for (std::size_t i = 0; i < recording.samples.size(); ++i)
    {
        double y = recording.samples[i];

        for (auto& section : sections)
            y = section.process (y);

        sum += y * y;

        if ((i + 1) % frame == 0)
        {
            envelope.power.push_back (sum / static_cast<double> (frame));
            sum = 0.0;
        }
    }

    return envelope;
}

} // namespace listening
