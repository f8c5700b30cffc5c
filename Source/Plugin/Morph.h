#pragma once

#include "Values.h"

namespace plugin
{

/** What lies between two sets of values: numbers glide, choices, counts and toggles change over half way. Parameters that say how
    the plugin is played, not what the drum is (the morph itself, bypass, patterns, channels), stay those of `live`.

    @param share   0 is `a`, 1 is `b`
*/
Values morphed (const Values& a, const Values& b, double share, const Values& live) noexcept;

/** Whether a snapshot holds this parameter. */
bool belongsToSound (Parameter) noexcept;

} // namespace plugin
