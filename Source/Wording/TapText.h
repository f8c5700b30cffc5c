#pragma once

#include "Listening/LiveLugCheck.h"
#include "Listening/Nature.h"
#include "Listening/SharedNote.h"

#include <string>

namespace wording
{

/** What is wrong with a tap and what to do about it: "hit twice: lift the stick at once". */
std::string text (listening::Trouble);

/** The troubles of a tap called `name`, and whether it is left out; one sentence per line, empty without trouble. */
std::string remarks (const std::vector<listening::Trouble>&, const std::string& name, bool isUsed);

/** The same for all taps of a recording. */
std::string remarks (const listening::RecordedLugCheck&);

/** What the shared note of a lug check is, and what to do if that is doubtful; empty without one. */
std::string text (const listening::SharedNote&);

/** What a recording is that is no drum's, and what to record instead; empty for a drum. */
std::string text (listening::Nature);

/** Result of the last tap; empty before the first. */
std::string text (const listening::LiveLugCheck::Remark&);

} // namespace wording
