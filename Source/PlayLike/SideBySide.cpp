#include "SideBySide.h"

#include "Modal/Units.h"
#include "Score/Loudness.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace playlike
{
namespace
{

constexpr double pause = 0.7;    // s
constexpr double longest = 3.0;  // s of the recording
constexpr double peak = 0.708;   // of full scale, -3 dB
constexpr double fade = 0.01;    // s at the end of each
constexpr double target = -23.0; // LUFS; any value serves, since the peak is set after

/** A whole number of times as many samples a second: sinc under a Hann window, 16 samples either way. */
std::vector<double> upsampled (const std::vector<double>& samples, int times)
{
    constexpr std::ptrdiff_t reach = 16;

    if (times == 1)
        return samples;

    std::vector<double> out;
    out.reserve (samples.size() * static_cast<std::size_t> (times));

    for (std::ptrdiff_t i = 0; i < static_cast<std::ptrdiff_t> (samples.size()); ++i)
        for (int part = 0; part < times; ++part)
        {
            double sum = 0.0;

            for (auto k = std::max<std::ptrdiff_t> (0, i - reach + 1);
                 k <= std::min<std::ptrdiff_t> (static_cast<std::ptrdiff_t> (samples.size()) - 1, i + reach); ++k)
            {
                const double x = modal::units::pi * (static_cast<double> (k - i) - static_cast<double> (part) / times);
                const double window = 0.5 + 0.5 * std::cos (x / reach);
                sum += samples[static_cast<std::size_t> (k)] * (x == 0.0 ? 1.0 : std::sin (x) / x) * window;
            }

            out.push_back (sum);
        }

    return out;
}

void levelAndFade (std::vector<double>& samples, double rate)
{
    const std::vector<float> asFloat (samples.begin(), samples.end());
    score::LoudnessMeter meter (rate, 1);
    const float* channel = asFloat.data();
    meter.add (&channel, static_cast<int> (asFloat.size()));
    const double gain = meter.gainFor (target);
    const auto count = std::min (samples.size(), static_cast<std::size_t> (fade * rate));

    for (auto& x : samples)
        x *= gain;

    for (std::size_t i = 0; i < count; ++i)
        samples[samples.size() - 1 - i] *= static_cast<double> (i) / static_cast<double> (count);
}

} // namespace

listening::Recording sideBySide (const listening::Recording& recording, double from, double to, const listening::Recording& model)
{
    const auto at = [&] (double time)
    {
        const double sample = std::clamp (time, 0.0, recording.seconds()) * recording.sampleRate;
        return recording.samples.begin() + static_cast<std::ptrdiff_t> (sample);
    };
    const int times = static_cast<int> (std::lround (model.sampleRate / recording.sampleRate));
    auto real = upsampled ({ at (from), at (std::min (to, from + longest)) }, times);
    auto played = model.samples;
    levelAndFade (real, model.sampleRate);
    levelAndFade (played, model.sampleRate);

    listening::Recording both{ model.sampleRate, std::move (real) };
    both.samples.resize (both.samples.size() + static_cast<std::size_t> (pause * model.sampleRate), 0.0);
    both.samples.insert (both.samples.end(), played.begin(), played.end());

    double loudest = 1.0e-12;

    for (const double x : both.samples)
        loudest = std::max (loudest, std::abs (x));

    for (auto& x : both.samples)
        x *= peak / loudest;

    return both;
}

} // namespace playlike
