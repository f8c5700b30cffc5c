#pragma once

#include "TunedDrum.h"

#include "Modal/Prediction.h"

namespace tool
{

/** The option for the highest mode. */
const OptionGroup& modelOptions();

/** `--highest`, Hz. */
std::optional<double> highestAsked (const Arguments&);

/** modal::predict() up to `--highest`, or up to the command's usual limit. Throws modal::InputError on `--highest` where that
    leaves out the drum note, or the same with a head a semitone up. */
modal::Prediction predictAsked (const Arguments&, const TunedDrum&, double usualHighestFrequency);

/** Throws modal::InputError on `--highest` if modes that were solved up to `highest` Hz do not reach the drum note. */
void requireDrumNote (const modal::DrumModes&, double highest, const modal::DrumSpec&, const modal::Tensions&);

} // namespace tool
