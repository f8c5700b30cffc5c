#pragma once

#include <cmath>
#include <complex>

namespace fitting
{

/** A damped sine in a recording: amplitude × exp ((−decay + 2πi·frequency)·t), t from the stroke. */
struct Partial
{
    double frequency = 0.0;      ///< Hz
    double frequencyError = 0.0; ///< Hz, one standard deviation from the residue
    double decay = 0.0;          ///< 1/s, of the amplitude
    double decayError = 0.0;     ///< 1/s, one standard deviation
    std::complex<double> amplitude;
    double signalToNoise = 0.0; ///< amplitude over its own standard deviation

    /** s after the stroke, when stroke and early room response have died away. */
    static constexpr double settled = 0.12;

    /** Amplitude at that time. */
    double level() const noexcept { return std::abs (amplitude) * std::exp (-settled * decay); }

    double t60() const noexcept { return decay > 0.0 ? 6.907755 / decay : 1.0e9; } ///< s
};

} // namespace fitting
