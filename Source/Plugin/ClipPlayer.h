#pragma once

#include "HandOver.h"

#include <algorithm>
#include <memory>
#include <vector>

namespace plugin
{

/** Plays a finished sound once through the outputs, beside the drum. */
class ClipPlayer
{
public:
    /** Any one thread but the audio thread: plays these samples from their start, full scale 1, at the output's sample rate; what still
        plays ends. Nothing for an empty clip. */
    void play (std::vector<float> samples) { handOver.offer (std::make_unique<std::vector<float>> (std::move (samples))); }

    /** Audio thread: adds the next samples to a channel or two; `right` may be null. */
    void addTo (float* left, float* right, int frames) noexcept
    {
        if (auto* next = handOver.take())
        {
            if (clip != nullptr)
                handOver.giveBack (clip);
            clip = next;
            at = 0;
        }

        if (clip == nullptr)
            return;

        const auto count = std::min (static_cast<std::size_t> (frames), clip->size() - at);

        for (std::size_t i = 0; i < count; ++i)
        {
            left[i] += (*clip)[at + i];
            if (right != nullptr)
                right[i] += (*clip)[at + i];
        }

        at += count;
    }

    ~ClipPlayer() { delete clip; }

private:
    HandOver<std::vector<float>> handOver;
    std::vector<float>* clip = nullptr; ///< the audio thread's
    std::size_t at = 0;
};

} // namespace plugin
