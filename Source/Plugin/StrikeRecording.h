#pragma once

#include "SequenceLock.h"

#include "Engine/Stroke.h"

#include <atomic>
#include <cstdint>
#include <vector>

namespace plugin
{

/** Recording of the last stroke, for its spectrum. The audio thread writes, one other thread reads. */
class StrikeRecording
{
public:
    static constexpr int capacity = 1 << 16; ///< samples: 1.4 s at 48 kHz

    struct Copy
    {
        std::uint32_t stroke = 0;   ///< counts strokes; 0: none yet
        std::vector<float> samples; ///< the mix before the output gain, full scale 1
    };

    /** Audio thread: a stroke lands before the next sample. */
    void begin (const engine::Stroke& stroke) noexcept
    {
        struck.set (stroke);
        length.store (0, std::memory_order_release);
        strokes.fetch_add (1, std::memory_order_release);
    }

    /** Audio thread. */
    void add (float sample) noexcept
    {
        const auto at = length.load (std::memory_order_relaxed);
        if (at >= capacity)
            return;
        samples[static_cast<std::size_t> (at)].store (sample, std::memory_order_relaxed);
        length.store (at + 1, std::memory_order_release);
    }

    /** The last stroke. Only valid after the first one. */
    engine::Stroke stroke() const noexcept { return struck.get(); }

    std::uint32_t strokeCount() const noexcept { return strokes.load (std::memory_order_acquire); }
    int recordedSamples() const noexcept { return length.load (std::memory_order_acquire); }

    /** The recording so far; restarts if a stroke lands meanwhile. */
    Copy copy() const
    {
        Copy result;
        do
        {
            result.stroke = strokeCount();
            result.samples.resize (static_cast<std::size_t> (recordedSamples()));
            for (std::size_t i = 0; i < result.samples.size(); ++i)
                result.samples[i] = samples[i].load (std::memory_order_relaxed);
        } while (result.stroke != strokeCount());
        return result;
    }

private:
    std::vector<std::atomic<float>> samples = std::vector<std::atomic<float>> (capacity);
    std::atomic<int> length{ capacity };
    std::atomic<std::uint32_t> strokes{ 0 };
    SequenceLock<engine::Stroke> struck;
};

} // namespace plugin
