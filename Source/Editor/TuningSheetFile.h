#pragma once

#include "Fitting/Plan.h"
#include "Plugin/SolvedDrum.h"

#include <juce_core/juce_core.h>

namespace editor
{

/** What a tuning sheet is made from. */
struct SheetRequest
{
    std::shared_ptr<const plugin::SolvedDrum> drum;        ///< and its tuning
    juce::String name;                                     ///< of the drum
    double ringWiresOn = 0.0;                              ///< s; 0: not known, or no wires
    std::optional<fitting::HeadAsIs> batter{}, resonant{}; ///< where the heads stand, for the plan; none: no plan
};

/** Writes the two pages of a tuning sheet as PDF, SVG or PNG, by the file's ending. Returns why it could not; empty if it is
    written. Takes some tenths of a second. */
juce::String writeTuningSheet (const SheetRequest&, const juce::File&);

} // namespace editor
