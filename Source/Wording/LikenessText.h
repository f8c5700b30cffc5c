#pragma once

#include "PlayLike/PlayLike.h"

#include <string>
#include <vector>

namespace wording
{

/** What a recording shows of the model's numbers, one sentence each: wires, their tension, muffling, and what one stroke does not
 * tell. */
std::vector<std::string> sentences (const playlike::Likeness&);

} // namespace wording
