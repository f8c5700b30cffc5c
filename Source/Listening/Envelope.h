#pragma once

#include "Recording.h"

#include <vector>

namespace listening
{

/** Mean square of a recording in short frames, in one band of frequencies. */
struct Envelope
{
    double frameSeconds = 0.0;
    std::vector<double> power; ///< mean square per frame

    std::size_t frameAt (double seconds) const noexcept;

    /** Mean over [from, to) seconds, within the recording; 0 if there is no frame. */
    double mean (double from, double to) const noexcept;
};

/** The band between two corners (Hz) by high-passes and low-passes of second order (Butterworth), two of each. */
Envelope envelopeOf (const Recording&, double lowCorner, double highCorner, double frameSeconds);

} // namespace listening
