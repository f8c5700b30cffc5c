#pragma once

#include "Iteration.h"

#include <vector>

namespace fitting
{

/** The tap note of one head and its error from tension and mass. */
Estimate tapNoteOf (const DrumIteration&, modal::HeadSide, const Eigen::Matrix4d& covariance);

/** The different tunings among fits, most probable first, without those of less than one in fifty.

    @param fits  those of the largest weight() first, at least one */
std::vector<DrumAnswer> answersOf (const std::vector<DrumIteration>& fits);

} // namespace fitting
