#pragma once

#include <string>
#include <vector>

namespace modal
{

/** The materials of a shell: the names that findMaterial() knows, in the order of its table. */
std::vector<std::string> materialNames();

} // namespace modal
