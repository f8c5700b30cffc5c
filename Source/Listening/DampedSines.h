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
   pencil of Hua & Sarkar 1990), then Gauss–Newton on poles and amplitudes together; the residue gives the errors.

    @param rate           samples a second
    @param noiseVariance  mean square of complex noise in the samples; sets the threshold for sines
    @param most           largest number of sines, 1 to 12
*/
std::vector<DampedSine> dampedSines (const Eigen::VectorXcd& samples, double rate, double noiseVariance, int most);

/** One of several signals with the same poles. */
struct Channel
{
    Eigen::VectorXcd samples;
    double noiseVariance = 0.0; ///< as above
};

/** A pole shared by several signals. */
struct CommonSine
{
    std::complex<double> pole;
    double poleError = 0.0;                      ///< as in DampedSine
    std::vector<std::complex<double>> amplitude; ///< per channel, at its first sample
    std::vector<double> amplitudeError;
};

/** The same for several signals at once. A sine in one signal alone loses weight, and a mode that is faint in one is measured in
    the others. Empty if a channel has fewer than 16 samples. */
std::vector<CommonSine> commonSines (const std::vector<Channel>&, double rate, int most);

} // namespace listening
