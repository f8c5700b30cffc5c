#include "Partials.h"

#include "DampedSines.h"
#include "Subband.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using modal::units::twoPi;

constexpr int mostInBand = 8;
constexpr double fewestDeviations = 4.0;
constexpr double slowestDecay = 0.3, fastestDecay = 150.0; // 1/s

/** Amplitude and phase at the blow, as a partial of the recording. */
modal::Partial asPartial (const DampedSine& sine, const SubbandFilter& filter, double centre, double sinceBlow)
{
    modal::Partial partial;
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

std::vector<modal::Partial> partialsOf (const Recording& recording, const Tap& tap, double quiet, const PartialSearch& search)
{
    const SubbandFilter filter (recording.sampleRate);
    const double from = tap.lastBlow + search.settle;
    const double to = std::min ({ tap.end - 2.0e-3, from + search.longest, recording.seconds() });
    const double highest = std::min (search.highest, 0.4 * recording.sampleRate);
    std::vector<modal::Partial> found;

    for (double low = search.lowest; low < highest; low += SubbandFilter::width)
    {
        const double centre = low + 0.5 * SubbandFilter::width;
        const auto band = filter.cut (recording, from, to, centre);
        const auto noise = filter.cut (recording, quiet, quiet + quietSpan, centre);
        const double variance =
            noise.samples.size() > 0 ? noise.samples.squaredNorm() / static_cast<double> (noise.samples.size()) : 0.0;

        for (const auto& sine : dampedSines (band.samples, band.rate, variance, mostInBand))
        {
            const auto partial = asPartial (sine, filter, centre, band.firstTime - tap.start);

            if (partial.frequency >= low && partial.frequency < std::min (low + SubbandFilter::width, highest) &&
                partial.decay > slowestDecay && partial.decay < fastestDecay && partial.signalToNoise > fewestDeviations)
                found.push_back (partial);
        }
    }

    std::sort (found.begin(), found.end(),
               [] (const modal::Partial& a, const modal::Partial& b) { return a.frequency < b.frequency; });
    return found;
}

} // namespace listening
