#pragma once

#include "Place/Room.h"

#include <vector>

/** Impulse responses of places and their measures by ISO 3382-1. */
namespace tests
{

struct ImpulseResponse
{
    double sampleRate;
    std::vector<float> left, right; ///< `right` empty for one channel
};

/** Of a place to an impulse of 1 that is picked up 1 m from the drum. */
ImpulseResponse impulseResponse (const place::Place&, double sampleRate, bool isStereo, double seconds);

/** The samples in one octave: sixth-order Butterworth high-pass and low-pass at its borders (steeper than class 1 of IEC 61260).
 */
std::vector<double> inOctave (const std::vector<float>&, double centre, double sampleRate);

/** T30: the backward-integrated energy from -5 to -35 dB, a straight line by least squares. */
double t30 (const std::vector<double>&, double sampleRate);

double energyOf (const std::vector<double>&);

} // namespace tests
