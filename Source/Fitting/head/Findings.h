#pragma once

#include "Iteration.h"
#include "Rival.h"

#include <optional>

namespace fitting
{

/** How much better than chance a head explains the notes that the taps share, see evidence(). */
struct NotesExplained
{
    double evidence = 0.0; ///< over the weight of the notes
    std::size_t notes = 0;
};

/** None if there are too few notes to judge by. @param lines  linesOfBareTaps() */
std::optional<NotesExplained> evidenceOf (const HeadFitSetup&, const std::vector<Line>& lines, const HeadState&);

/** Why no state of the head can be given; empty if one can.
    @param lines  linesOfBareTaps()
    @param best   the best fit, none if no start led to one */
std::vector<Finding> refusals (const std::vector<Line>& lines, const std::optional<NotesExplained>&,
                               const std::optional<HeadIteration>& best, const std::optional<Rival>&);

/** Adds what makes the estimates doubtful, and what they leave open. */
void addRemarks (HeadFit&, const HeadFitSetup&, const std::optional<NotesExplained>&, const HeadIteration&,
                 const std::optional<Rival>&);

} // namespace fitting
