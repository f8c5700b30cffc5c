#include "LiveTaps.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

constexpr double lookEvery = 0.25;                   // s of new sound
constexpr double windowLength = 10.0, trimmed = 2.0; // s: kept, and cut off at once
constexpr double rungOut = 0.9;                      // s after a blow: needed to read its partials
constexpr double startsWithSound = 0.02;             // s: sound at the start of the window is no tap
constexpr double oneTap = 0.26;                      // s: a second onset within this time belongs to the same tap
constexpr double silence = 1.0;                      // s

} // namespace

LiveTaps::LiveTaps (double sampleRate)
{
    modal::requireInRange (sampleRate, { 8000.0, 192000.0, "Hz" }, "sample rate of the input");
    window.sampleRate = sampleRate;
}

void LiveTaps::add (const float* samples, std::size_t count, const Take& take)
{
    const auto step = static_cast<std::size_t> (lookEvery * window.sampleRate);

    // Analyses at the same samples for pieces of any size.
    for (std::size_t done = 0; done < count;)
    {
        const auto part = std::min (count - done, step - unheard);

        for (std::size_t i = done; i < done + part; ++i)
        {
            zeros = samples[i] == 0.0f ? zeros + 1 : 0;
            window.samples.push_back (std::isfinite (samples[i]) ? static_cast<double> (samples[i]) : 0.0);
        }

        done += part;
        unheard += part;

        if (unheard == step)
            analyse (take);
    }
}

void LiveTaps::interrupt()
{
    windowStart += window.seconds();
    judgedUntil = windowStart;
    window.samples.clear();
    unheard = 0;
}

bool LiveTaps::isSilent() const noexcept
{
    return static_cast<double> (zeros) >= silence * window.sampleRate;
}

void LiveTaps::analyse (const Take& take)
{
    unheard = 0;

    if (window.seconds() > windowLength + trimmed)
    {
        const auto cut = static_cast<std::ptrdiff_t> (trimmed * window.sampleRate);
        window.samples.erase (window.samples.begin(), window.samples.begin() + cut);
        windowStart += static_cast<double> (cut) / window.sampleRate;
    }

    if (std::all_of (window.samples.begin(), window.samples.end(), [&] (double s) { return s == window.samples.front(); }))
        return;

    const auto taps = findTaps (window);
    const double quiet = quietestMoment (window);

    for (const auto& tap : taps)
    {
        const double start = windowStart + tap.start;
        const bool isOver = &tap != &taps.back() || window.seconds() - tap.start >= rungOut;

        if (start < judgedUntil || tap.start < startsWithSound || ! isOver)
            continue;

        judgedUntil = start + oneTap;
        take ({ window, tap, quiet, start });
    }
}

} // namespace listening
