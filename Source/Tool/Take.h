#pragma once

#include "Engine/DrumModel.h"
#include "Score/Performance.h"
#include "Score/StereoMix.h"

#include <array>
#include <functional>
#include <memory>
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
    stereo ///< a mix of these three
};

int channelsOf (Pickup) noexcept;

/** Gains of the microphones above, below and distant on both sides. */
using StereoParts = std::array<score::SideGains, 3>;

/** A performance from beginning to end, block by block, in Pa. Can be played again and gives the same. */
class Take
{
public:
    /** The model has the three microphones above, below and distant, in this order. */
    Take (std::shared_ptr<const engine::DrumModel>, score::Score, Pickup, const StereoParts&, long long frames);

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
    long long frames;
    int lost = 0;
};

} // namespace tool
