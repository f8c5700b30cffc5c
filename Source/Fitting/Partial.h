#pragma once

#include <cmath>
#include <complex>

namespace fitting
{

/** A damped sine in a recording: amplitude × exp ((−decay + 2πi·frequency)·t), t from the stroke; after a large stroke it starts
    higher and falls to that frequency. */
struct Partial
{
    double frequency = 0.0;      ///< Hz, at rest
    double frequencyError = 0.0; ///< Hz, one standard deviation from the residue
    double decay = 0.0;          ///< 1/s, of the amplitude
    double decayError = 0.0;     ///< 1/s, one standard deviation
    double rise = 0.0;           ///< how far it starts above that frequency after a large stroke, relative
    double riseError = 0.0;      ///< relative, one standard deviation
    double riseDecay = 10.0;     ///< 1/s, of the rise
    std::complex<double> amplitude;
    double signalToNoise = 0.0; ///< amplitude over its own standard deviation

    /** s after the stroke, when stroke and early room response have died away. */
    static constexpr double settled = 0.12;

    /** Amplitude t s after the stroke, when it has settled if not said. */
    double level (double t = settled) const noexcept { return std::abs (amplitude) * std::exp (-t * decay); }

    /** Hz, t s after the stroke. */
    double frequencyAt (double t) const noexcept { return frequency * (1.0 + rise * std::exp (-riseDecay * t)); }

    double t60() const noexcept { return decay > 0.0 ? 6.907755 / decay : 1.0e9; } ///< s
};

} // namespace fitting
