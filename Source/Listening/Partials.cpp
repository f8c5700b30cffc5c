#include "Partials.h"

#include "DampedSines.h"
#include "TapBand.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using modal::units::twoPi;

constexpr int mostInBand = 8;

/** Amplitude and phase at the blow, as a partial of the recording. */
fitting::Partial asPartial (const CommonSine& sine, const SubbandFilter& filter, const Channel& band)
{
    fitting::Partial partial;
    partial.frequency = band.carrier + sine.pole.imag() / twoPi;
    partial.frequencyError = sine.poleError / twoPi;
    partial.decay = -sine.pole.real();
    partial.decayError = sine.decayError;
    partial.rise = sine.rise.front();
    partial.riseError = sine.riseError.front();
    partial.riseDecay = sine.riseDecay.front();
    partial.signalToNoise = std::abs (sine.amplitude.front()) / std::max (sine.amplitudeError.front(), 1.0e-300);

    // The band's phase counts from its first sample, at which the carrier stands at 0.
    const std::complex<double> whole{ sine.pole.real(), sine.pole.imag() + twoPi * band.carrier };
    partial.amplitude = sine.amplitude.front() / filter.gain (sine.pole) * std::exp (-whole * band.firstTime);
    return partial;
}

} // namespace

std::vector<fitting::Partial> partialsOf (const Recording& recording, const Tap& tap, double quiet, const PartialSearch& search)
{
    const std::vector<SubbandFilter> filters{ SubbandFilter (recording.sampleRate) };
    const double highest = std::min (search.highest, 0.4 * recording.sampleRate);
    const std::vector<HeardRing> rings{ HeardRing (recording, tap, quiet) };
    const auto bands = bandsOf (filters, rings, search, highest, mostInBand);
    std::vector<fitting::Partial> found;

    for (const auto& band : bands)
        for (const auto& sine : band.sines)
            if (const auto partial = asPartial (sine, filters.front(), band.channels.front());
                partial.signalToNoise > fewestDeviations)
                found.push_back (partial);

    std::sort (found.begin(), found.end(),
               [] (const fitting::Partial& a, const fitting::Partial& b) { return a.frequency < b.frequency; });
    return found;
}

} // namespace listening
