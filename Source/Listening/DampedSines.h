#pragma once

#include <Eigen/Core>
#include <complex>
#include <vector>

namespace listening
{

/** exp (pole·t) × amplitude in evenly spaced complex samples. */
struct DampedSine
{
    std::complex<double> pole;      ///< 1/s: −decay + i·angular frequency
    std::complex<double> amplitude; ///< at the first sample
    double poleError = 0.0;         ///< 1/s, standard deviation of its real and of its imaginary part
    double amplitudeError = 0.0;
};

/** The damped sines in a signal: the signal subspace's shift invariance (ESPRIT, Roy & Kailath 1989; for damped sines the matrix
   pencil of Hua & Sarkar 1990), then Gauss–Newton on poles and amplitudes together, whose residue gives the errors.

    @param rate           samples a second
    @param noiseVariance  mean square of complex noise in the samples; decides how many sines are told from noise
    @param most           at most so many, 1 to 12
*/
std::vector<DampedSine> dampedSines (const Eigen::VectorXcd& samples, double rate, double noiseVariance, int most);

} // namespace listening
