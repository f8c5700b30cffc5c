#pragma once

#include <cmath>
#include <complex>

namespace fitting
{

/** One damped sine found in a recording: amplitude × exp ((−decay + 2πi·frequency)·t), t from the blow. */
struct Partial
{
    double frequency = 0.0;      ///< Hz
    double frequencyError = 0.0; ///< Hz, one standard deviation by the residue of the fit
    double decay = 0.0;          ///< 1/s, of the amplitude
    double decayError = 0.0;     ///< 1/s, one standard deviation
    std::complex<double> amplitude;
    double signalToNoise = 0.0; ///< amplitude over its own standard deviation

    /** s after the blow: it and the room's answer have died away. */
    static constexpr double settled = 0.12;

    /** Amplitude then. */
    double level() const noexcept { return std::abs (amplitude) * std::exp (-settled * decay); }

    double t60() const noexcept { return decay > 0.0 ? 6.907755 / decay : 1.0e9; } ///< s
};

} // namespace fitting
