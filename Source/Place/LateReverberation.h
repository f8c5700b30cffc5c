#pragma once

#include "OctaveFilter.h"

#include "Engine/Bytes.h"

namespace place
{

/** The diffuse late part of a room's response: a feedback delay network of 16 lines, coupled by an orthogonal matrix that
   conserves energy, with a filter in each line that loses as much level as the reverberation times ask for in the time of the
   line (Jot & Chaigne, AES 1991). */
class LateReverberation
{
public:
    static constexpr int lines = 16;
    using Lines = Eigen::Array<double, lines, 1>;

    /** Allocates. @param typicalDelay  s: the time of flight between two reflections in the room; the lines' delays lie around it
     */
    LateReverberation (const Decay::Bands& times, double typicalDelay, double sampleRate);

    /** As written by pass(). */
    explicit LateReverberation (engine::ByteReader&);

    /** All but the sound in it, to or from bytes. */
    template <class Self, class Stream>
    static void pass (Self& self, Stream& stream)
    {
        engine::pass (stream, self.delay);
        OctaveFilter<lines>::pass (self.losses, stream);
    }

    /** Of each line, in samples. */
    const std::array<std::size_t, lines>& delays() const noexcept { return delay; }

    void reset() noexcept;

    /** One sample: what comes out of each line, given what goes into each. */
    Lines next (const Lines& input) noexcept;

private:
    void makeMemory();

    std::vector<Eigen::Array<float, lines, 1>> memory;
    std::size_t mask = 0, position = 0;
    std::array<std::size_t, lines> delay{};
    OctaveFilter<lines> losses;
};

/** The times to give the network so that the octaves' reverberation times, measured as T30 (ISO 3382: from -5 to -35 dB, with
   octave filters of 12 poles), are as asked. A filter changes gradually from octave to octave, and the slowest part of an octave
   lasts longest. */
Decay::Bands fittedTimes (const Decay::Bands& asked, double sampleRate);

} // namespace place
