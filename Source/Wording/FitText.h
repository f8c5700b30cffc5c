#pragma once

#include "Fitting/Drum.h"
#include "Modal/pitch/Note.h"

#include <optional>
#include <string>

/** Findings of a fit as sentences for people; lugs count from 1. */
namespace wording
{

/** What was found and what to do about it. */
std::string text (const fitting::Finding&);

/** The most severe finding as text; empty if there is none. */
std::string mostSevereText (const std::vector<fitting::Finding>&);

/** "3", "3 and 7", "3, 5 and 7", or with another conjunction. @param lugs  from 0 */
std::string listOfLugs (std::vector<int> lugs, const std::string& conjunction);

/** What to do about the lugs, without a full stop: "Raise lugs 3 and 7 by 12 cents each". */
std::string action (const fitting::LugVerdict&, std::optional<double> turnsEach = {});

/** Why: which lugs the recording cannot tell apart, and what would. Empty if there is nothing to add. */
std::string reason (const fitting::LugVerdict&);

/** What to hear next to decide between the first two answers of a fit: the head whose tap note differs more, and both notes;
   empty for one answer alone. */
std::string whatDecides (const std::vector<fitting::DrumAnswer>&, modal::ConcertPitch);

/** "2 waves around the head, 8 ± 2 cents at a lug", or how large they are at most. */
std::string text (const fitting::LugWave&);

} // namespace wording
