#pragma once

#include "LiveLugCheck.h"
#include "Strikes.h"

namespace listening
{

/** Collects strikes of a finished drum while they are made. A strike with the wires on is refused like any that cannot be used,
    since they change the notes.

    Not for an audio thread. */
class LiveStrikes
{
public:
    static constexpr std::size_t most = 12; ///< strikes kept; the oldest are dropped

    /** @param sampleRate  Hz, 8000 to 192 000. @throws modal::InputError */
    explicit LiveStrikes (double sampleRate) : incoming (sampleRate) {}

    /** The next samples of the microphone, full scale 1, in pieces of any size. */
    void add (const float* samples, std::size_t count);

    /** A recording with one strike or more; returns the partials of those used, with their times in it. */
    std::vector<HeardPartials> add (std::shared_ptr<const Recording>);

    using Remark = LugCheckRemark;

    /** Samples were lost since the last add(). @param why  the new remark, unless it is `none` */
    void interrupt (Remark why = {});

    const std::vector<Strike>& strikes() const noexcept { return heard; }

    /** The last strike that rang out above the noise, wires on or off; none before the first. */
    const std::optional<Strike>& lastHeard() const noexcept { return lastStrike; }

    /** False if there is none. */
    bool deleteLast();

    const Remark& remark() const noexcept { return lastRemark; }
    const HeardPartials& lastPartials() const noexcept { return last; } ///< of the last strike used
    double seconds() const noexcept { return incoming.seconds(); }      ///< of sound so far
    bool isSilent() const noexcept { return incoming.isSilent(); }      ///< after a second of zeros

private:
    bool take (std::shared_ptr<const Recording>, const Tap&, double quiet, double start);

    LiveTaps incoming;
    std::vector<Strike> heard;
    std::optional<Strike> lastStrike;
    HeardPartials last;
    Remark lastRemark;
};

} // namespace listening
