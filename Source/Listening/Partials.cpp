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
fitting::Partial asPartial (const DampedSine& sine, const SubbandFilter& filter, double centre, double sinceBlow)
{
    fitting::Partial partial;
    partial.frequency = centre + sine.pole.imag() / twoPi;
    partial.frequencyError = sine.poleError / twoPi;
    partial.decay = -sine.pole.real();
    partial.decayError = sine.poleError;
    partial.signalToNoise = std::abs (sine.amplitude) / std::max (sine.amplitudeError, 1.0e-300);

    // The band's phase counts from its first sample, at which the carrier stands at 0.
    const std::complex<double> whole{ sine.pole.real(), sine.pole.imag() + twoPi * centre };
    partial.amplitude = sine.amplitude / filter.gain (sine.pole) * std::exp (-whole * sinceBlow);
    return partial;
}

} // namespace

std::vector<fitting::Partial> partialsOf (const Recording& recording, const Tap& tap, double quiet, const PartialSearch& search)
{
    const SubbandFilter filter (recording.sampleRate);
    const double highest = std::min (search.highest, 0.4 * recording.sampleRate);
    std::vector<fitting::Partial> found;

    for (double low = search.lowest; low < highest; low += SubbandFilter::width)
    {
        const double centre = low + 0.5 * SubbandFilter::width;
        const auto [band, variance] = bandOf (filter, recording, tap, quiet, search, centre);

        for (const auto& sine : dampedSines (band.samples, band.rate, variance, mostInBand))
        {
            const auto partial = asPartial (sine, filter, centre, band.firstTime - tap.start);

            if (partial.frequency >= low && partial.frequency < std::min (low + SubbandFilter::width, highest) &&
                fadesLikeMode (partial.decay) && partial.signalToNoise > fewestDeviations)
                found.push_back (partial);
        }
    }

    std::sort (found.begin(), found.end(),
               [] (const fitting::Partial& a, const fitting::Partial& b) { return a.frequency < b.frequency; });
    return found;
}

} // namespace listening
