#pragma once

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace fitting
{

/** 1200 / ln 2: cents of a small relative change of frequency. */
inline constexpr double centsPerShare = 1731.234;

/** Hz. A room response with a tenth of the energy turns a mode's phase by up to a third of a radian while it decays, which shifts
   its frequency by this much: once for all taps together and once per tap. */
inline constexpr double roomError = 0.15;

/** rad. The mean phase turn by the same room while a mode falls to 1/e. Used for strikes, whose modes decay at very different
   rates. */
inline constexpr double roomTurn = 0.1;

/** Hz, standard deviation: how far a room shifts the partials of taps, which are heard alone. A mode that dies before the room
   does leaves the room's ring, which is noise around its frequency: the phase turns by up to a radian while it falls to 1/e. A
   room whose ring falls by 60 dB in 0.4 s decays at 17/s; how the turn grows up to there is fitted to noise that dies away, with
   a tenth of the energy, in rooms of 0.2 to 0.6 s. @param decay  1/s, of the partial */
inline double roomErrorOf (double decay) noexcept
{
    constexpr double roomDecay = 17.0; // 1/s
    return std::hypot (roomError, decay / modal::units::twoPi * std::min (1.0, std::pow (decay / roomDecay, 2)));
}

} // namespace fitting
