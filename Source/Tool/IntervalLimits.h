#pragma once

#include "Arguments.h"

#include "Modal/Tuning.h"

namespace tool
{

/** Throws modal::InputError for a tuning whose interval lies outside `--interval-limits`, if they are given. The message has the
    drum notes that a held head leaves within them. */
void checkInterval (const Arguments&, const modal::DrumSpec&, const modal::Tuning&);

} // namespace tool
