#pragma once

#include "Fitting/Head.h"
#include "Fitting/Lines.h"

#include <optional>

namespace fitting
{

/** Another drum than the one that was stated. */
struct Rival
{
    Finding::Kind kind = Finding::Kind::otherDiameter; ///< or otherHeadRings, openBelow, closedBelow
    double diameter = 0.0;                             ///< m, if that is what differs
    double lead = 0.0;                                 ///< ln of the probability ratio to the drum as stated

    /** As a finding about a drum of some diameter in m. */
    Finding warning (double statedDiameter) const;
};

/** The notes that at least half of the taps on the bare head share, ascending in frequency. */
std::vector<Line> linesOfBareTaps (const std::vector<HeardTap>&);

/** The most plausible of the usual mistakes: the other head rings or is missing, the diameter is an inch or two off. Each drum,
   the stated one too, is fitted like strikes (see Drum.h) to linesOfBareTaps(). None if there are too few lines or something lies
   on the head.
    @param lines  linesOfBareTaps() of its taps */
std::optional<Rival> likeliestRival (const HeadFitSetup&, const std::vector<Line>& lines);

} // namespace fitting
