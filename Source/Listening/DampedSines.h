#pragma once

#include "Glide.h"

#include <Eigen/Core>
#include <complex>
#include <vector>

namespace listening
{

/** Standard deviations of a mode above the noise at least. */
inline constexpr double fewestDeviations = 4.0;

/** A signal in evenly spaced complex samples. */
struct Channel
{
    Eigen::VectorXcd samples;
    double noiseVariance = 0.0; ///< mean square of complex noise in the samples; sets the threshold for sines
    Glide glide{};              ///< that was taken out of the samples, which lie evenly in steady time
    double firstTime = 0.0;     ///< of the first sample, s of steady time since the blow
    double carrier = 0.0;       ///< Hz: the frequency at rest that became 0 Hz
};

/** A damped sine shared by several signals: exp (pole·t) × amplitude at rest. Its glide is its channel's times a factor of its
 * own. */
struct CommonSine
{
    std::complex<double> pole; ///< 1/s: −decay + i·angular frequency above the carrier
    double poleError = 0.0;    ///< 1/s, standard deviation of its angular frequency
    double decayError = 0.0;   ///< 1/s
    /** How far the sine is turned, or changed in level, by what else sounds about its frequency, as a room's answer does: rad,
       one standard deviation. Of a thorough search; not yet in the errors, see widenErrorsInRoom(). */
    double turn = 0.0;
    double clarity = 0.0;                          ///< energy over the noise's in one dimension, sum of the channels
    std::vector<std::complex<double>> amplitude{}; ///< per channel, at its first sample
    std::vector<double> amplitudeError{};
    std::vector<double> rise{};      ///< per channel: its own Glide::rise
    std::vector<double> riseError{}; ///< 0 in a channel without glide
    std::vector<double> riseDecay{}; ///< 1/s
};

struct CommonSines
{
    std::vector<CommonSine> sines{};
    double badness = 0.0; ///< by Schwarz's criterion: −2 ln of their probability and a cost for each
};

/** Makes the errors of sines that belong to one blow larger by what a room turns them. One sine alone shows little of the room,
   so that each counts as turned by as much as the median of the loud ones. */
void widenErrorsInRoom (const std::vector<CommonSine*>&);

/** How much work to spend; rough is enough to compare glides. */
enum class Effort
{
    rough,
    thorough
};

/** The damped sines in signals that have them in common: the signal subspace's shift invariance (ESPRIT, Roy & Kailath 1989; for
    damped sines the matrix pencil of Hua & Sarkar 1990), then Gauss–Newton on poles, glides and amplitudes together; the residue
    gives the errors. A sine in one signal alone loses weight, and a mode that is faint in one is measured in the others. Empty if
    a channel has fewer than 16 samples.

    Thoroughly, sines are also added as long as the residue holds one that chance does not explain, each sample counts by the
   residue about it, which fades with room and wires, and sines that are not clear of the noise are left out.

    @param rate  samples a second
    @param most  largest number of sines, 1 to 12 */
CommonSines commonSines (const std::vector<Channel>&, double rate, int most, Effort = Effort::thorough);

/** How badly few damped sines (by ESPRIT) explain a signal: ln of the share of its energy that is left, mean over two to
    five sines. Noise counts as left. 0 for a signal that is too short. */
double fewSinesResidue (const Eigen::VectorXcd& samples, double noiseVariance);

} // namespace listening
