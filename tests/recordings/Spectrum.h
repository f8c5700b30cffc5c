#pragma once

#include <complex>
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace recordings
{

using Samples = std::vector<double>;

/** The smallest power of two that is at least `count`. */
std::size_t transformSize (std::size_t count);

/** Filters by multiplying each frequency's (Hz) spectrum with `gain`, which makes no phase shift. The signal is followed by as
    much silence again, so that its end does not run into its beginning. */
Samples filtered (const Samples&, double rate, const std::function<double (double)>& gain);

/** The band from `low` to `high` Hz, by a high-pass and a low-pass of fourth order (Butterworth), each run forwards and
   backwards: the gain is the square of the filters' magnitude, 1/2 at both corners. */
Samples butterworthBand (const Samples&, double rate, double low, double high);

/** Samples with their Hilbert transform as the imaginary part, of the band from `low` to `high` Hz. */
std::vector<std::complex<double>> analyticBand (const Samples&, double rate, double low, double high);

/** |X|² of the samples times a Hann window, bins 0 to half of `size`, which is a power of two no smaller than the samples. */
std::vector<double> powerSpectrum (std::span<const double>, std::size_t size);

} // namespace recordings
