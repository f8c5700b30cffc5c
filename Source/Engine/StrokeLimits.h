#pragma once

#include "Modal/InputError.h"

/** What a Stroke may be asked for. The engine brings other values to the nearest of these; readers refuse them. */
namespace engine::strokeLimits
{

inline constexpr modal::Range position{ 0.0, 0.98, "of the radius" };
inline constexpr modal::Range speed{ 0.01, 12.0, "m/s" };
inline constexpr modal::Range sweepSpeed{ 0.02, 3.0, "m/s" };
inline constexpr modal::Range rimDelay{ -1.0e-3, 1.0e-3, "s" };
inline constexpr modal::Range pressForce{ 0.5, 40.0, "N" };
inline constexpr modal::Range pressTime{ 0.02, 2.0, "s" };
inline constexpr modal::Range secondDelay{ 0.02, 0.5, "s" };
inline constexpr modal::Range secondShare{ 0.1, 1.2, "" };
inline constexpr modal::Range sweepForce{ 0.02, 3.0, "N" };
inline constexpr modal::Range sweepTime{ 0.05, 30.0, "s" };

} // namespace engine::strokeLimits
