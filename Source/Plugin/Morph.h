#pragma once

#include "Values.h"

namespace plugin
{

/** A mix of two sets of values: numbers are interpolated; choices, counts and toggles switch half way. Parameters of playing
    rather than of the drum (the morph itself, bypass, patterns, channels) are taken from `live`.

    @param share   0 is `a`, 1 is `b`
*/
Values morphed (const Values& a, const Values& b, double share, const Values& live) noexcept;

/** Whether snapshots and presets include this parameter. */
bool belongsToSound (Parameter) noexcept;

} // namespace plugin
