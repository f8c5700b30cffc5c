#pragma once

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

} // namespace fitting
