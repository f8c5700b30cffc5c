#pragma once

#include "Modal/DrumModes.h"
#include "Modal/InputError.h"

#include <Eigen/Core>

#include <vector>

/** How far the modes of real drums lie from the model's: film mass, bearing edge, hoop and shell that give, moisture, heads that
    are not even. */
namespace fitting
{

/** Cents, standard deviation of one mode of a recorded drum about the model's. A search over tensions, heads and sizes left 13 to
   17 cents (root mean square) of a recorded 14-inch snare's ten partials; with four unknowns fitted, that is 15·√(10/6) = 19, and
    other drums are expected to be no worse. */
inline constexpr double usualModelError = 18.0;

/** Standard deviation of ln (decay heard over decay predicted) of recorded drums: partials of two of them faded 0.4 to 2.5 times
   as fast as predicted, muffled or not. */
inline constexpr double usualDecayError = 0.8;

/** What a fit may be told that these two are. */
inline constexpr modal::Range modelErrorRange{ 0.1, 50.0, "cents" }, decayErrorRange{ 0.1, 2.0, "" };

/** Correlation of the errors of modes, from −1 to 1: half of the variance is a mode's own, the other half is shared by modes of
   the same head within about half an octave (common practice in regression with a model error, no source for the numbers). Rows
   and columns in the order of the modes. */
Eigen::MatrixXd errorCorrelation (const std::vector<modal::Mode>&);

} // namespace fitting
