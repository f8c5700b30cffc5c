#pragma once

#include <atomic>
#include <cstddef>
#include <vector>

namespace plugin
{

/** Single-producer single-consumer ring buffer for audio from the audio thread to one other thread. If it is full, samples are
 * dropped and lostSome() reports it. */
class InputRing
{
public:
    static constexpr std::size_t capacity = std::size_t{ 1 } << 18; ///< samples: 5.4 s at 48 kHz

    /** Audio thread: one channel, or the mean of two. */
    void write (const float* left, const float* right, int frames) noexcept
    {
        const auto at = written.load (std::memory_order_relaxed);
        const auto count = static_cast<std::size_t> (frames);

        if (at + count - read.load (std::memory_order_acquire) > capacity)
            return isBroken.store (true, std::memory_order_release);

        for (std::size_t i = 0; i < count; ++i)
            samples[(at + i) % capacity] = right == nullptr ? left[i] : 0.5f * (left[i] + right[i]);

        written.store (at + count, std::memory_order_release);
    }

    /** Reader: samples available. */
    std::size_t waiting() const noexcept
    {
        return written.load (std::memory_order_acquire) - read.load (std::memory_order_relaxed);
    }

    /** Reader: takes up to `most` samples; returns how many. */
    std::size_t take (float* out, std::size_t most) noexcept
    {
        const auto from = read.load (std::memory_order_relaxed);
        const auto count = waiting() < most ? waiting() : most;

        for (std::size_t i = 0; i < count; ++i)
            out[i] = samples[(from + i) % capacity];

        read.store (from + count, std::memory_order_release);
        return count;
    }

    /** Reader: drops all samples. */
    void clear() noexcept { read.store (written.load (std::memory_order_acquire), std::memory_order_release); }

    /** Reader: whether samples were dropped since the last call. */
    bool lostSome() noexcept { return isBroken.exchange (false, std::memory_order_acq_rel); }

private:
    std::vector<float> samples = std::vector<float> (capacity);
    std::atomic<std::size_t> written{ 0 }, read{ 0 }; ///< counted since the beginning
    std::atomic<bool> isBroken{ false };
};

} // namespace plugin
