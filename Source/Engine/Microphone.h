#pragma once

#include "Modal/DrumModes.h"

#include <Eigen/Core>
#include <string>
#include <vector>

namespace engine
{

/** A pressure microphone near the drum. The batter head's middle is the origin, z points up. */
struct Microphone
{
    std::string name = "above";
    double x = 0.12, y = 0.0, z = 0.10; ///< m; see check()
    double gain = 1.0;                  ///< output per Pa; 1 by default
    bool invertsPolarity = false;

    double signedGain() const noexcept { return invertsPolarity ? -gain : gain; }
};

/** Nearest to heads and shell, m: nearer, the cells that a head is cut into stand for it no more. */
inline constexpr double closestMicrophone = 0.02;

/** Furthest from the batter head's middle, m. */
inline constexpr double furthestMicrophone = 20.0;

/** Throws modal::InputError on `field` for a microphone inside a drum of this radius and depth (m), or too near to or too far
   from it. */
void check (const Microphone&, double radius, double depth, const std::string& field);

/** Above the batter head, below the resonant head, and at a distance. */
std::vector<Microphone> defaultMicrophones (double depth);

/** How loud each mode is at a microphone: pressure = Σ acceleration × q'' + velocity × q', in Pa, as it arrives, with the travel
   time from the nearest point of the drum taken out. */
struct ModalPressure
{
    Eigen::VectorXd acceleration; ///< Pa per (m·√kg/s²), one entry a mode
    Eigen::VectorXd velocity;     ///< Pa per (m·√kg/s)
    double delay = 0.0;           ///< s, the travel time
};

/** Rayleigh's integral over both heads, each mode at its own frequency and so exact where that mode rings; in the first
   milliseconds, when the stick and the wires drive modes away from their own frequencies, each keeps the directivity it has at
   its own.

    A baffled drum is heard from one side, with the doubling of a wall. A free-standing drum is two sets of simple sources: low
   modes are heard from both heads without doubling; the higher a mode, the more the drum itself is the wall that doubles a head's
    sound on the side it faces and keeps it from the other. */
ModalPressure pressureAt (const modal::DrumModes&, const Microphone&);

} // namespace engine
