#pragma once

#include "Modal/Units.h"

#include <cmath>
#include <complex>
#include <vector>

/** Levels in third octaves, for tests that compare spectra. */
namespace testdrum
{

/** A ratio of energies as a level, dB. */
inline double decibels (double ratio)
{
    return 10.0 * std::log10 (ratio);
}

/** Energy of a sound in a third of an octave around `centre` Hz: |Fourier integral|² over the band, from sines `spacing` Hz
   apart, which should be no more than one over the sound's length. Does not depend on the rate. */
template <typename Scalar>
double bandEnergy (const std::vector<Scalar>& sound, double rate, double centre, double spacing)
{
    double energy = 0.0;
    for (double f = centre * std::pow (2.0, -1.0 / 6.0); f < centre * std::pow (2.0, 1.0 / 6.0); f += spacing)
    {
        const auto turn = std::polar (1.0, -modal::units::twoPi * f / rate);
        std::complex<double> phase = 1.0, sum = 0.0;
        for (const Scalar sample : sound)
        {
            sum += static_cast<double> (sample) * phase;
            phase *= turn;
        }
        energy += std::norm (sum / rate) * spacing;
    }
    return energy;
}

/** Centres from `lowest` to `highest` Hz, three an octave from 1 kHz (IEC 61260-1, base two). */
inline std::vector<double> thirdOctaveCentres (double lowest, double highest)
{
    std::vector<double> centres;
    for (int i = -20; i <= 20; ++i)
        if (const double centre = 1000.0 * std::pow (2.0, i / 3.0); centre >= lowest && centre <= highest)
            centres.push_back (centre);
    return centres;
}

} // namespace testdrum
