#pragma once

namespace modal
{

// What common practice, without a source, keeps a head and its rods to. The makers' limits come first.

inline constexpr double prudentYieldShare = 0.5;  ///< of a head's yield strength: leaves room for the bearing edge and a hard stroke
inline constexpr double prudentRodForce = 1000.0; ///< N per rod: tuning by hand needs less
inline constexpr double slackYieldShare = 0.03;   ///< of the tension at yield: below, a head is too slack to play

} // namespace modal
