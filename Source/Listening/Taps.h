#pragma once

#include "Recording.h"

#include <vector>

namespace listening
{

/** Reasons that make a tap hard or impossible to use. */
enum class Trouble
{
    noisy,     ///< less than 10 dB above the quietest part of the recording
    doubleHit, ///< the stick came back within a quarter of a second
    wiresOn,   ///< broadband rattle after the stroke
    clipped,   ///< the recording is clipped
    notQuiet,  ///< something sounded just before: another drum or the last tap
    cutShort   ///< less than 0.2 s until the next tap or the end
};

/** One tap in a recording. */
struct Tap
{
    double start = 0.0;         ///< s from the recording's beginning
    double end = 0.0;           ///< s: the next tap, or the end
    double lastBlow = 0.0;      ///< s: last onset of a bouncing stick; `start` without a bounce
    double peak = 0.0;          ///< largest sample, full scale 1
    double signalToNoise = 0.0; ///< dB: the first quarter second over the quietest part of the recording
    std::vector<Trouble> troubles{};

    bool has (Trouble) const noexcept;

    /** True if its partials cannot be used: double hit, wires on, cut short or below the noise. */
    bool isUnusable() const noexcept;

    /** True for a usable strike of a whole drum, where a double hit does no harm if the drum rings long enough. */
    bool canBeStrike() const noexcept;
};

/** All taps in order; empty if nothing starts suddenly.

    A tap is a rise of at least 9 dB within 5 ms, either where drums sound (80 Hz to 4 kHz), to within 34 dB of the loudest, or
   where sticks click (1.5 to 6 kHz), to within 20 dB.
 */
std::vector<Tap> findTaps (const Recording&);

/** Start in s of the quietest tenth of a second, where noise is measured. */
double quietestMoment (const Recording&);

inline constexpr double quietSpan = 0.1; ///< s

} // namespace listening
