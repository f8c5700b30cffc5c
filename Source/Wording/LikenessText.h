#pragma once

#include "PlayLike/PlayLike.h"

#include <string>
#include <vector>

namespace wording
{

/** What a recording told of the model's numbers, a sentence each: wires, their tension, muffling, and what one stroke does not
 * tell. */
std::vector<std::string> sentences (const playlike::Likeness&);

} // namespace wording
