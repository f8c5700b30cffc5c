#pragma once

#include "Modal/DrumModes.h"

#include <Eigen/Core>
#include <string>
#include <vector>

namespace engine
{

/** A pressure microphone near the drum. The origin is the centre of the batter head; x points to lug 1 along the
    wires, y a quarter turn clockwise from x seen from above, z up. */
struct Microphone
{
    std::string name = "above";
    double x = 0.12, y = 0.0, z = 0.10; ///< m; see check()
    double gain = 1.0;                  ///< output per Pa; 1 by default
    bool invertsPolarity = false;

    double signedGain() const noexcept { return invertsPolarity ? -gain : gain; }
};

/** Least distance from heads and shell, m; closer than this the points at which its motion is summed are too coarse. */
inline constexpr double closestMicrophone = 0.02;

/** Largest distance from the centre of the batter head, m. */
inline constexpr double furthestMicrophone = 20.0;

/** Throws modal::InputError on `field` for a microphone inside a drum of this radius and depth (m), too close to it or too far
   away. */
void check (const Microphone&, double radius, double depth, const std::string& field);

/** Above the batter head, below the resonant head, and at a distance. */
std::vector<Microphone> defaultMicrophones (double depth);

/** Pressure of each mode at a microphone: p = Σ acceleration × q'' + velocity × q', in Pa, without the travel time from the
   nearest point of the drum. */
struct ModalPressure
{
    Eigen::VectorXd acceleration; ///< Pa per (m·√kg/s²), one entry a mode
    Eigen::VectorXd velocity;     ///< Pa per (m·√kg/s)
    double delay = 0.0;           ///< s, the travel time
};

/** Rayleigh integral over both heads, each mode at its own frequency, so it is exact for a ringing mode. In the first
   milliseconds, when stick and wires drive modes off resonance, each still has the directivity of its own frequency.

    A baffled drum radiates to one side, doubled by the wall. A free-standing drum is two sets of simple sources: low modes
   radiate from both heads without doubling; the higher a mode, the more the drum itself acts as a baffle, which doubles a head's
   sound on the side it faces and shadows the other. */
ModalPressure pressureAt (const modal::DrumModes&, const Microphone&);

} // namespace engine
