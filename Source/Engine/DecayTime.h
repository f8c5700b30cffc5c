#pragma once

#include <vector>

namespace engine
{

/** Time in s in which levels fall by 60 dB: from the last one above -5 dB to the last one above `end`, 0 dB being the loudest, as
    ISO 3382 takes a room's reverberation time. The last ones, since a level may rise again for a moment. Infinite if they do not
   fall.

    @param levels  dB, at equal steps, at least one
    @param step    s from one to the next
    @param end     dB, below -5; ISO 3382 has -25 and -35 */
double decayTime (const std::vector<double>& levels, double step, double end = -35.0);

} // namespace engine
