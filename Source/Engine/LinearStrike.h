#pragma once

#include "Modal/DrumModes.h"

#include <Eigen/Core>

namespace engine
{

/** A force on the batter head at one point: one half of a sine, as a stick that neither bounces nor stays. */
struct StrikePulse
{
    double positionShare = 0.3;  ///< of the radius from the middle, 0 to 0.95
    double angle = 0.0;          ///< rad
    double momentum = 0.15;      ///< N·s: the area under the force
    double contactTime = 1.0e-3; ///< s, 0.1 to 10 ms
};

/** A pressure microphone above the batter head. */
struct NearMicrophone
{
    double height = 0.1;        ///< m above the head
    double positionShare = 0.5; ///< of the radius from the middle
    double angle = 0.0;         ///< rad
};

/** The drum's linear modes after one strike, without wires: exact in time, whatever the sampling rate.

    Every mode obeys q'' + 2αq' + ω²q = shape × force; for a half-sine force its answer is known in closed form. The microphone
   hears the batter head's acceleration summed over its area as by Rayleigh's integral, ρ/2π ∫ w''/R dA, with the sound's travel
   time left out (0.3 ms at 100 mm). It does not hear the resonant head.
*/
class LinearStrike
{
public:
    LinearStrike (const modal::DrumModes&, const StrikePulse&, const NearMicrophone&, double sampleRate);

    /** The next `count` samples of sound pressure, Pa. */
    void process (double* pressure, int count);

    /** No later sample exceeds this, Pa; infinite while the stick is on the head. */
    double largestStillToCome() const;

private:
    using Modes = Eigen::ArrayXcd;

    double pressureDuringContact (double time) const;
    void beginFreeDecay (double time);

    double samplePeriod, pulseRate, contactTime, peakForce;
    long long sampleIndex = 0;
    bool isFree = false;
    Modes lambda;        ///< -α + iω_d of each mode, 1/s
    Modes answer;        ///< of each mode to the half-sine: 1/(λ² + Ω²)
    Modes weight;        ///< pressure by the imaginary part of weight × state
    double directWeight; ///< pressure by the force that acts now
    Modes state, rotation;
};

} // namespace engine
