#pragma once

#include "Pattern.h"

#include <algorithm>
#include <cmath>

namespace plugin
{

/** Where a block lies in musical time. */
struct BlockTime
{
    double beat = 0.0;           ///< at the block's first sample
    double samplesPerBeat = 1.0; ///< constant through the block
};

/** Calls `strike (sample, stroke)` in order of time for every stroke of a repeating pattern that falls into a block of so many
    frames. Realtime safe. */
template <class Strike>
void playPattern (const Pattern& pattern, const BlockTime& time, int frames, Strike&& strike)
{
    // Half a sample early, so that a stroke on the edge between two blocks falls into one of them in spite of rounding.
    const auto half = 0.5 / time.samplesPerBeat;
    const auto first = time.beat - half, end = time.beat + frames / time.samplesPerBeat - half;

    for (auto loop = std::floor (first / pattern.beats); loop * pattern.beats < end; loop += 1.0)
        for (const auto& stroke : pattern.strokes)
        {
            const auto beat = loop * pattern.beats + stroke.time;
            if (beat >= first && beat < end)
                strike (std::clamp (static_cast<int> (std::lround ((beat - time.beat) * time.samplesPerBeat)), 0, frames - 1),
                        stroke.stroke);
        }
}

} // namespace plugin
