#pragma once

#include "Recording.h"

#include <Eigen/Core>
#include <complex>

namespace listening
{

/** A band of a recording brought down to 0 Hz and thinned out: what a mode's frequency and decay are read from. */
struct Subband
{
    double rate = 0.0;      ///< samples a second
    double firstTime = 0.0; ///< s, of the first sample, in the recording
    Eigen::VectorXcd samples;
};

/** Cuts bands of 100 Hz with a linear-phase filter that lets ±50 Hz through and stops what is further than 150 Hz away by 60 dB
    (Kaiser's window). A damped sine comes out as a damped sine of the same decay. */
class SubbandFilter
{
public:
    static constexpr double width = 100.0; ///< Hz

    explicit SubbandFilter (double sampleRate);

    /** The band about `centre` (Hz) from what lies between two times, filter included: samples depend on nothing outside. Empty
       if the span is shorter than the filter. */
    Subband cut (const Recording&, double from, double to, double centre) const;

    /** How the filter scales exp (pole·t), pole in 1/s relative to the band's centre. */
    std::complex<double> gain (std::complex<double> pole) const;

    /** Of a band, samples a second: 300 if the sample rate is a multiple of that. */
    double rate() const noexcept { return sampleRate / static_cast<double> (step); }

    double length() const noexcept { return static_cast<double> (taps.size()) / sampleRate; } ///< s

private:
    double sampleRate;
    std::size_t step;
    std::vector<double> taps;
};

} // namespace listening
