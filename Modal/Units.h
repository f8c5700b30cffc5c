#pragma once

#include <numbers>

/** Trade units in SI. Everything in this library is SI; these convert at its border. */
namespace modal::units
{
inline constexpr double inch = 0.0254;        ///< m, exact (international inch)
inline constexpr double mil = 25.4e-6;        ///< m, a thousandth of an inch
inline constexpr double millimetre = 1.0e-3;  ///< m
inline constexpr double megapascal = 1.0e6;   ///< Pa
inline constexpr double zeroCelsius = 273.15; ///< K
inline constexpr double pi = std::numbers::pi;
inline constexpr double twoPi = 2.0 * pi;
} // namespace modal::units
