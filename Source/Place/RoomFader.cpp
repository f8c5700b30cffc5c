#include "RoomFader.h"

#include <algorithm>
#include <array>

namespace place
{
namespace
{
constexpr double fadeTime = 0.05; // s

void playInto (Room* room, const float* sound, float* toLeft, float* toRight, int frames) noexcept
{
    if (room != nullptr)
        return room->process (sound, toLeft, toRight, frames);
    std::fill_n (toLeft, frames, 0.0f);
    if (toRight != nullptr)
        std::fill_n (toRight, frames, 0.0f);
}
} // namespace

void RoomFader::prepare (double sampleRate)
{
    length = std::max (1, static_cast<int> (fadeTime * sampleRate));
    set (sampleRate == rate ? std::move (now) : nullptr);
    rate = sampleRate;
    reset();
}

void RoomFader::set (std::unique_ptr<Room> room)
{
    now = std::move (room);
    former.reset();
    left = 0;
}

void RoomFader::reset() noexcept
{
    for (auto* room : { now.get(), former.get() })
        if (room != nullptr)
            room->reset();
}

void RoomFader::fadeTo (std::unique_ptr<Room> room) noexcept
{
    former = std::move (now);
    now = std::move (room);
    left = length;
}

void RoomFader::process (const float* sound, float* toLeft, float* toRight, int frames) noexcept
{
    for (int done = 0; done < frames; done += block)
        processBlock (sound + done, toLeft + done, toRight == nullptr ? nullptr : toRight + done,
                      std::min (block, frames - done));
}

void RoomFader::processBlock (const float* sound, float* toLeft, float* toRight, int frames) noexcept
{
    if (left == 0)
        return playInto (now.get(), sound, toLeft, toRight, frames);

    // What goes into the new room and what comes out of the former one fade. If the new one's output faded too, the first sound
    // to arrive in it would still begin at once.
    std::array<float, block> fadingIn, otherLeft, otherRight;
    const auto formersShare = [&] (int i) { return static_cast<float> (std::max (left - i, 0)) / static_cast<float> (length); };
    for (int i = 0; i < frames; ++i)
        fadingIn[static_cast<std::size_t> (i)] = (1.0f - formersShare (i)) * sound[i];

    playInto (now.get(), fadingIn.data(), toLeft, toRight, frames);
    playInto (former.get(), sound, otherLeft.data(), toRight == nullptr ? nullptr : otherRight.data(), frames);
    for (int i = 0; i < frames; ++i)
    {
        toLeft[i] += formersShare (i) * otherLeft[static_cast<std::size_t> (i)];
        if (toRight != nullptr)
            toRight[i] += formersShare (i) * otherRight[static_cast<std::size_t> (i)];
    }
    left = std::max (left - frames, 0);
}

} // namespace place
