#pragma once

namespace fitting
{

/** 1200 / ln 2: cents of a small relative change of frequency. */
inline constexpr double centsPerShare = 1731.234;

/** Hz. A room that answers with a tenth of the energy turns a mode's phase by a third of a radian at most while it dies away: so
   much frequency, in every tap alike and again from tap to tap. */
inline constexpr double roomError = 0.15;

/** rad, by which the same room turns a mode's phase on average while the mode falls to 1/e: strikes, whose modes fade at very
   different rates, go by that. */
inline constexpr double roomTurn = 0.1;

} // namespace fitting
