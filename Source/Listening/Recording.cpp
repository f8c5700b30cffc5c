#include "Recording.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace listening
{

void check (const Recording& recording)
{
    constexpr double shortest = 0.1, longest = 600.0;
    modal::requireInRange (recording.sampleRate, { 8000.0, 384000.0, "Hz" }, "sample rate of the recording");
    modal::requireInRange (recording.seconds(), { shortest, longest, "s" }, "length of the recording");

    const auto& samples = recording.samples;

    if (! std::all_of (samples.begin(), samples.end(), [] (double s) { return std::isfinite (s); }))
        throw modal::InputError ("recording", "samples that are not numbers", "finite samples");

    if (std::all_of (samples.begin(), samples.end(), [&] (double s) { return s == samples.front(); }))
        throw modal::InputError ("recording", "silence", "a sound");
}

} // namespace listening
