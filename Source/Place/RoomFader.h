#pragma once

#include "Room.h"

#include <memory>

namespace place
{

/** The room that is heard now, and the change to another without a click. For the audio thread: nothing is allocated or freed
 * here. */
class RoomFader
{
public:
    /** Call before playing. Rooms of another rate than before are forgotten. */
    void prepare (double sampleRate);

    /** Puts this room in place without a fade; null is silence. Not for the audio thread. */
    void set (std::unique_ptr<Room> room);

    /** Whether a change is going on; fadeTo() has to wait. */
    bool isFading() const noexcept { return left > 0; }

    /** Fades from the room that is heard to this one; either may be null, which is silence. */
    void fadeTo (std::unique_ptr<Room> room) noexcept;

    /** The room that was heard before the last change, once that is over. */
    std::unique_ptr<Room> takeFormer() noexcept { return std::move (former); }

    /** Whether a room is heard, or the end of one; if not, process() only writes zeros. */
    bool isSilent() const noexcept { return now == nullptr && ! isFading(); }

    /** Whether a room is there, and not only the end of one. */
    bool hasRoom() const noexcept { return now != nullptr; }

    /** Silences what still reverberates. */
    void reset() noexcept;

    /** Writes the sound at the listener; see Room::process(). */
    void process (const float* sound, float* toLeft, float* toRight, int frames) noexcept;

private:
    static constexpr int block = 128;
    void processBlock (const float* sound, float* toLeft, float* toRight, int frames) noexcept;

    std::unique_ptr<Room> now, former;
    double rate = 0.0;
    int length = 1, left = 0; ///< samples of the fade, and of it still to come
};

} // namespace place
