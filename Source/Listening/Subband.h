#pragma once

#include "Recording.h"

#include <Eigen/Core>
#include <complex>

namespace listening
{

/** A band of a recording, demodulated to 0 Hz and decimated. */
struct Subband
{
    double rate = 0.0;      ///< samples a second
    double firstTime = 0.0; ///< time of the first sample in the recording, s
    Eigen::VectorXcd samples;
};

/** Cuts bands of 100 Hz with a linear-phase filter that passes ±50 Hz and attenuates by 60 dB beyond 150 Hz (Kaiser window). A
    damped sine keeps its decay. */
class SubbandFilter
{
public:
    static constexpr double width = 100.0; ///< Hz

    explicit SubbandFilter (double sampleRate);

    /** The band about `centre` (Hz) from the samples between two times alone. Empty if the span is shorter than the filter. */
    Subband cut (const Recording&, double from, double to, double centre) const;

    /** Gain of the filter for exp (pole·t), pole in 1/s relative to the band's centre. */
    std::complex<double> gain (std::complex<double> pole) const;

    /** Samples per second of a band: 300 if the sample rate is a multiple of that. */
    double rate() const noexcept { return sampleRate / static_cast<double> (step); }

    double length() const noexcept { return static_cast<double> (taps.size()) / sampleRate; } ///< s

private:
    double sampleRate;
    std::size_t step;
    std::vector<double> taps;
};

} // namespace listening
