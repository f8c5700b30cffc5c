#include "ImpulseResponse.h"

#include "Modal/Units.h"

#include <cmath>

namespace tests
{
namespace
{
/** Butterworth of order six by bilinear transform, in place. */
void filter (std::vector<double>& samples, double corner, double sampleRate, bool isHighPass)
{
    const double k = std::tan (modal::units::pi * corner / sampleRate);
    for (int pair = 0; pair < 3; ++pair)
    {
        const double loss = 2.0 * std::cos (modal::units::pi * (2.0 * pair + 1.0) / 12.0);
        const double norm = 1.0 / (1.0 + loss * k + k * k), gain = (isHighPass ? 1.0 : k * k) * norm;
        const double middle = isHighPass ? -2.0 : 2.0, a1 = 2.0 * (k * k - 1.0) * norm, a2 = (1.0 - loss * k + k * k) * norm;
        double state1 = 0.0, state2 = 0.0;
        for (auto& sample : samples)
        {
            const double x = gain * sample, y = x + state1;
            state1 = middle * x - a1 * y + state2;
            state2 = x - a2 * y;
            sample = y;
        }
    }
}
} // namespace

ImpulseResponse impulseResponse (const place::Place& place, double sampleRate, bool isStereo, double seconds)
{
    place::Room room (place, 1.0, sampleRate);
    const auto frames = static_cast<std::size_t> (seconds * sampleRate);
    std::vector<float> impulse (frames, 0.0f);
    impulse[0] = 1.0f;
    ImpulseResponse response{ sampleRate, std::vector<float> (frames), std::vector<float> (isStereo ? frames : 0) };
    room.process (impulse.data(), response.left.data(), isStereo ? response.right.data() : nullptr, static_cast<int> (frames));
    return response;
}

std::vector<double> inOctave (const std::vector<float>& samples, double centre, double sampleRate)
{
    std::vector<double> filtered (samples.begin(), samples.end());
    filter (filtered, centre / std::sqrt (2.0), sampleRate, true);
    filter (filtered, centre * std::sqrt (2.0), sampleRate, false);
    return filtered;
}

double energyOf (const std::vector<double>& samples)
{
    double energy = 0.0;
    for (const double sample : samples)
        energy += sample * sample;
    return energy;
}

double t30 (const std::vector<double>& samples, double sampleRate)
{
    const double whole = energyOf (samples);
    double left = whole, n = 0.0, sumX = 0.0, sumY = 0.0, sumXX = 0.0, sumXY = 0.0;
    for (std::size_t i = 0; i < samples.size() && left > 0.0; ++i)
    {
        const double level = 10.0 * std::log10 (left / whole), x = static_cast<double> (i) / sampleRate;
        if (level < -35.0)
            break;
        if (level <= -5.0)
        {
            n += 1.0;
            sumX += x;
            sumY += level;
            sumXX += x * x;
            sumXY += x * level;
        }
        left -= samples[i] * samples[i];
    }
    return -60.0 * (n * sumXX - sumX * sumX) / (n * sumXY - sumX * sumY);
}

} // namespace tests
