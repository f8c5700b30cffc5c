#pragma once

#include "Images.h"
#include "LateReverberation.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace place
{

/** The sound of a drum in a place, at the listener.

    The drum is taken to radiate alike in all directions, as it does to where its sound was picked up. Direct sound and early
   reflections come by the 64 shortest paths, each delayed by its length (cubic interpolation) and with its own level; the losses
   of air and sides in octaves are a filter for each number of reflections. Everything later is diffuse: a feedback delay network
   that starts where these end, with the energy of the images left out, 4πc/V in each second, decaying as the reverberation times
   say.

    One channel is an omnidirectional listener. Two channels are a coincident pair of cardioids turned 60° to left and right of
   the drum, which in diffuse sound hear a third of the energy each, with a correlation of 0.625.

    Constructing allocates and takes some milliseconds; process() is realtime safe. */
class Room
{
public:
    /** @param pickedUpAt   m from the drum, where the sound is picked up that process() takes
        @param sampleRate   Hz, from 22 050
        @param isMono       two channels hear as one does, both the same */
    Room (const Place&, double pickedUpAt, double sampleRate, bool isMono = false);

    /** A room from the bytes of another's write(), before any sound. Allocates, but takes less than a tenth of a millisecond.
       @throws modal::InputError for other bytes */
    explicit Room (std::span<const std::byte>);

    /** All but the sound in it, for a thread that shares no memory with this one; the reader has to be of the same build. */
    std::vector<std::byte> write() const;

    double sampleRate() const noexcept { return rate; } ///< Hz

    /** Writes the sound at the listener, in the unit of `sound`; `right` null for one channel. It is earlier by the time of
       flight to where `sound` was picked up. Outputs may not overlap the input. */
    void process (const float* sound, float* left, float* right, int frames) noexcept;

    /** Silences what still reverberates. Realtime safe, but takes as long as some hundred samples. */
    void reset() noexcept;

private:
    static constexpr int block = 64;
    static constexpr int groups = 5;         ///< of paths: by 0, 1, 2, 3 and more reflections
    static constexpr int lateGroup = groups; ///< what goes into the late part
    static constexpr int channels = 8; ///< one for each group and for the late part, and two unused for the width of vectors

    struct Tap
    {
        int group;
        std::size_t delay; ///< samples, whole
        std::array<float, 4> weights;
        float mono, left, right; ///< gains
    };

    struct Feed
    {
        int line;
        std::size_t delay; ///< samples
        float gain;
    };

    template <class Self, class Stream>
    static void pass (Self&, Stream&);
    void makeHistory();
    void addPaths (const std::vector<Image>&, const Decay&, double pickedUpAt);
    void addLate (const Place&, const Decay&, double pickedUpAt, double begin);
    void processBlock (const float* sound, float* left, float* right, int frames) noexcept;
    void remember (const float* sound, int frames) noexcept;
    void addEarly (float* left, float* right, int frames) const noexcept;
    void addLate (float* left, float* right, int frames) noexcept;

    /** `frames` samples of a group, the first of them `delay` before the newest block began; contiguous, since all is stored
     * twice. */
    const float* past (int group, std::size_t delay) const noexcept
    {
        return history[static_cast<std::size_t> (group)].data() + (blockStart + size - delay) % size;
    }

    double rate = 0.0, soundSpeed = 0.0, lead = 0.0; ///< lead: s by which everything is earlier
    bool mono = false;
    std::vector<Tap> taps;
    std::vector<Feed> feeds;
    OctaveFilter<channels> losses;
    std::optional<LateReverberation> late;
    std::array<std::vector<float>, groups + 1> history;
    std::size_t size = 0, blockStart = 0;
};

} // namespace place
