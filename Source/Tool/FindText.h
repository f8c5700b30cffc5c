#pragma once

#include "FindOptions.h"

namespace tool
{

/** The list as text: wishes, conflicts, tunings with what they miss, and commands that go on from there. */
std::string findText (const FindRequest&, const finding::FindResult&, const finding::PlayedMap*);

/** Words of another command for a tuning on the list: the drum and both tap notes. */
std::vector<std::string> wordsFor (const FindRequest&, const finding::FoundTuning&);

/** The same with the place, as `predict` and `render` take it. */
std::vector<std::string> heardWordsFor (const FindRequest&, const finding::FoundTuning&);

/** The words without the place and with the tuning now, as `plan` and `sheet` take it. */
std::vector<std::string> planWordsFor (const FindRequest&, const finding::FoundTuning&, const finding::Present&);

} // namespace tool
