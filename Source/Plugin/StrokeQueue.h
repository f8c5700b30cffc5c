#pragma once

#include "Engine/Stroke.h"

#include <array>
#include <atomic>

namespace plugin
{

/** Single-producer single-consumer queue of strokes, from the editor to the audio thread. Lock-free. */
class StrokeQueue
{
public:
    /** Producer; false if the queue is full. */
    bool push (const engine::Stroke& stroke) noexcept
    {
        const auto at = written.load (std::memory_order_relaxed);
        if (at - read.load (std::memory_order_acquire) == capacity)
            return false;
        strokes[at % capacity] = stroke;
        written.store (at + 1, std::memory_order_release);
        return true;
    }

    /** Consumer; false if the queue is empty. */
    bool pop (engine::Stroke& stroke) noexcept
    {
        const auto at = read.load (std::memory_order_relaxed);
        if (at == written.load (std::memory_order_acquire))
            return false;
        stroke = strokes[at % capacity];
        read.store (at + 1, std::memory_order_release);
        return true;
    }

private:
    static constexpr unsigned capacity = 32;
    std::array<engine::Stroke, capacity> strokes;
    std::atomic<unsigned> written{ 0 }, read{ 0 };
};

} // namespace plugin
