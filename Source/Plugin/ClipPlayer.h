#pragma once

#include "HandOver.h"

#include <atomic>
#include <memory>
#include <vector>

namespace plugin
{

/** A finished sound, full scale 1, at the output's sample rate. */
struct Clip
{
    std::vector<float> left, right; ///< of the same length
};

/** Plays a finished sound once through the outputs, beside the drum. */
class ClipPlayer
{
public:
    /** Any one thread but the audio thread: plays this sound from its start; what still plays fades out first. Silence if it is
        empty. */
    void play (std::shared_ptr<const Clip> clip)
    {
        const int number = offered.fetch_add (1) + 1;
        handOver.offer (std::make_unique<Numbered> (Numbered{ std::move (clip), number }));
    }

    /** Any thread: whether what was given last is still to be heard. */
    bool isPlaying() const noexcept { return finished.load() != offered.load(); }

    /** Audio thread: adds the next samples to a channel or two; `right` may be null. */
    void addTo (float* left, float* right, int frames) noexcept
    {
        if (next == nullptr)
            next = handOver.take();

        for (int i = 0; i < frames; ++i)
        {
            if (next != nullptr && (isDone() || fade == 0))
                beginNext();
            if (isDone())
                break;

            const float gain = next == nullptr ? 1.0f : static_cast<float> (fade--) / fadeLength;
            const float l = gain * current->clip->left[at], r = gain * current->clip->right[at];
            ++at;
            left[i] += right != nullptr ? l : 0.5f * (l + r);
            if (right != nullptr)
                right[i] += r;
        }

        if (current != nullptr && isDone())
            finished.store (current->number);
    }

    ~ClipPlayer()
    {
        delete current;
        delete next;
    }

private:
    static constexpr int fadeLength = 256; // samples

    struct Numbered
    {
        std::shared_ptr<const Clip> clip;
        int number;
    };

    bool isDone() const noexcept { return current == nullptr || at == current->clip->left.size(); }

    void beginNext() noexcept
    {
        if (current != nullptr)
            handOver.giveBack (current);
        current = next;
        next = nullptr;
        at = 0;
        fade = fadeLength;
    }

    HandOver<Numbered> handOver;
    std::atomic<int> offered{ 0 }, finished{ 0 };

    // The audio thread's:
    Numbered *current = nullptr, *next = nullptr;
    std::size_t at = 0;
    int fade = fadeLength;
};

} // namespace plugin
