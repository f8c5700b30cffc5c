#include "Nature.h"

#include "Envelope.h"

#include "Fitting/Lines.h"

#include <algorithm>

namespace listening
{
namespace
{

// Common practice, no source: chosen on simulated drums, rooms and voices.
constexpr double ringFrom = 0.1, ringTo = 0.3;  // s after the blow: the stroke is over, and what rings still does
constexpr double frame = 1.0e-3;                // s
constexpr double mostly = 1.5, nearlyAll = 4.0; // times the power of the rest

} // namespace

Nature natureOf (const Recording& recording, const std::vector<Tap>& taps,
                 const std::vector<std::vector<fitting::Partial>>& partials)
{
    if (taps.empty())
        return Nature::noStroke;

    const auto loudest = std::max_element (taps.begin(), taps.end(), [] (const Tap& a, const Tap& b) { return a.peak < b.peak; });
    const double begin = loudest->lastBlow + ringFrom, end = std::min (loudest->end, loudest->lastBlow + ringTo);
    const auto powerIn = [&] (double low, double high) { return envelopeOf (recording, low, high, frame).mean (begin, end); };
    const double bass = powerIn (25.0, 90.0), middle = powerIn (130.0, 3000.0), treble = powerIn (3500.0, 12000.0);

    if (treble > mostly * (bass + middle))
        return Nature::cymbal;

    if (bass > nearlyAll * (middle + treble))
        return Nature::kick;

    const auto& heard = partials[static_cast<std::size_t> (loudest - taps.begin())];
    return fitting::areHarmonics (fitting::commonLines ({ heard })) ? Nature::harmonics : Nature::drum;
}

} // namespace listening
