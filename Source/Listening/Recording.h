#pragma once

#include <cstddef>
#include <vector>

namespace listening
{

/** One channel of sound in memory, full scale 1. */
struct Recording
{
    double sampleRate = 48000.0; ///< Hz, 8000 to 384 000
    std::vector<double> samples;

    double seconds() const noexcept { return static_cast<double> (samples.size()) / sampleRate; }
};

/** Throws modal::InputError for a rate out of range, too short (below 0.1 s) or too long a recording (above 10 minutes), samples
    that are not finite, or silence. */
void check (const Recording&);

} // namespace listening
