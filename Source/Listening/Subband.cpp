#include "Subband.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using modal::units::pi;
using modal::units::twoPi;

/** I₀ by its series; enough for a window. */
double besselI0 (double x)
{
    double term = 1.0, sum = 1.0;

    for (int k = 1; term > 1.0e-12 * sum; ++k)
    {
        term *= 0.25 * x * x / (k * k);
        sum += term;
    }

    return sum;
}

/** Kaiser's design formulas (Kaiser 1974) for 60 dB. */
constexpr double beta = 5.653;
constexpr double lengthTimesTransition = 3.62;

} // namespace

SubbandFilter::SubbandFilter (double ofRecording)
    : sampleRate (ofRecording), step (static_cast<std::size_t> (ofRecording / (3.0 * width)))
{
    constexpr double pass = 0.5 * width, stop = 1.5 * width;
    const auto half = static_cast<int> (std::ceil (0.5 * lengthTimesTransition / (stop - pass) * sampleRate));
    const double cut = 0.5 * (pass + stop) / sampleRate;
    double sum = 0.0;

    for (int i = -half; i <= half; ++i)
    {
        const double x = static_cast<double> (i) / (half + 1);
        const double sinc = i == 0 ? 2.0 * cut : std::sin (twoPi * cut * i) / (pi * i);
        taps.push_back (sinc * besselI0 (beta * std::sqrt (1.0 - x * x)) / besselI0 (beta));
        sum += taps.back();
    }

    for (auto& tap : taps)
        tap /= sum;
}

Subband SubbandFilter::cut (const Recording& recording, double from, double to, double centre) const
{
    const auto first = static_cast<std::size_t> (std::max (0.0, std::ceil (from * sampleRate)));
    const auto last = std::min (recording.samples.size(), static_cast<std::size_t> (std::max (0.0, to * sampleRate)));
    Subband band;
    band.rate = rate();

    if (last < first + taps.size() + step)
        return band;

    const auto count = (last - first - taps.size()) / step + 1;
    band.samples.resize (static_cast<Eigen::Index> (count));
    band.firstTime = (static_cast<double> (first) + 0.5 * static_cast<double> (taps.size() - 1)) / sampleRate;

    // Brought down over the whole span once; phase 0 at the first output's middle.
    const auto span = last - first;
    std::vector<double> real (span), imaginary (span);
    const std::complex<double> turn = std::polar (1.0, -twoPi * centre / sampleRate);
    std::complex<double> phasor = std::polar (1.0, pi * centre * static_cast<double> (taps.size() - 1) / sampleRate);

    for (std::size_t i = 0; i < span; ++i)
    {
        const double x = recording.samples[first + i];
        real[i] = x * phasor.real();
        imaginary[i] = x * phasor.imag();
        phasor *= turn;

        if (i % 512 == 511)
            phasor /= std::abs (phasor);
    }

    for (std::size_t k = 0; k < count; ++k)
    {
        const double* re = real.data() + k * step;
        const double* im = imaginary.data() + k * step;
        double sumRe = 0.0, sumIm = 0.0;

        for (std::size_t j = 0; j < taps.size(); ++j)
        {
            sumRe += taps[j] * re[j];
            sumIm += taps[j] * im[j];
        }

        // Twice: the half at negative frequencies is gone.
        band.samples[static_cast<Eigen::Index> (k)] = { 2.0 * sumRe, 2.0 * sumIm };
    }

    return band;
}

std::complex<double> SubbandFilter::gain (std::complex<double> pole) const
{
    const double middle = 0.5 * static_cast<double> (taps.size() - 1);
    std::complex<double> sum = 0.0;

    for (std::size_t j = 0; j < taps.size(); ++j)
        sum += taps[j] * std::exp (pole * ((static_cast<double> (j) - middle) / sampleRate));

    return sum;
}

} // namespace listening
