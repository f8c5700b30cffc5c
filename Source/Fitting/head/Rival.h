#pragma once

#include "Fitting/Head.h"

#include <optional>

namespace fitting
{

/** Another drum than the one that was stated. */
struct Rival
{
    Finding::Kind kind = Finding::Kind::otherDiameter; ///< or otherHeadRings, openBelow, closedBelow
    double diameter = 0.0;                             ///< m, if that is what differs
    double lead = 0.0;                                 ///< ln of how much more probable it makes what was heard than the drum as stated

    /** As a finding about a drum of some diameter in m. */
    Finding finding (Finding::Severity, double statedDiameter) const;
};

/** The most plausible of the usual mistakes: the other head rings along, is missing, the diameter is an inch or two off. Each is
    fitted to the lines that at least half of the taps on the bare head have in common, as strikes are (see Drum.h), and so is
    the drum as stated; an uneven head is none of the rivals, its pairs of lines count as one. None if too little was heard in
    common to say, or something lies on the head. */
std::optional<Rival> likeliestRival (const HeadFitSetup&, const std::vector<HeardTap>&);

} // namespace fitting
