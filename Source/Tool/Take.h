#pragma once

#include "Engine/DrumModel.h"
#include "Place/Room.h"
#include "Score/Performance.h"
#include "Score/StereoMix.h"

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace tool
{

/** Which channels come out of a performance. */
enum class Pickup
{
    above,
    below,
    distant,
    each,  ///< these three, a channel each
    stereo,        ///< a mix of these three
    listener,      ///< in the drum's place, a coincident pair
    listenerMono   ///< the same, one channel
};

int channelsOf (Pickup) noexcept;

/** Gains of the microphones above, below and distant on both sides. */
using StereoParts = std::array<score::SideGains, 3>;

constexpr bool isHeardByListener (Pickup pickup) noexcept
{
    return pickup >= Pickup::listener;
}

/** A performance from beginning to end, block by block, in Pa. Can be played again and gives the same. */
class Take
{
public:
    /** The model has the three microphones above, below and distant, in this order. The listener needs a place, and hears what the distant
        microphone picks up. */
    Take (std::shared_ptr<const engine::DrumModel>, score::Score, Pickup, const StereoParts&, long long frames,
          std::optional<place::Place> = std::nullopt);

    /** Calls `use (channels, frames)` for each block; the pointers are as many as channels(). */
    using Use = std::function<void (const float* const*, int)>;
    void play (const Use&);

    int channels() const noexcept { return channelsOf (pickup); }
    long long length() const noexcept { return frames; } ///< frames
    int lostStrokes() const noexcept { return lost; }    ///< of the last time it was played

private:
    std::shared_ptr<const engine::DrumModel> model;
    score::Score strokes;
    Pickup pickup;
    StereoParts mix;
    std::optional<place::Place> place; ///< for the listener
    long long frames;
    int lost = 0;
};

} // namespace tool
