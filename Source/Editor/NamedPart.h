#pragma once

#include "ValueBinding.h"

#include "Plugin/Processor.h"

namespace editor
{

/** A part of the drum that is chosen by name, "single ply, coated"; its numbers are parameters. */
struct NamedPart
{
    struct Option
    {
        juce::String name;
        std::vector<std::pair<plugin::Parameter, float>> numbers; ///< plain values, only those that matter for this option
    };

    juce::String name;                      ///< "Batter head"
    const char* tip;                        ///< one sentence on what the part does
    std::vector<plugin::Parameter> numbers; ///< all parameters that describe it; the first one's group is the part's group
    std::vector<Option> options;

    /** Draws an option, or what is set now for -1; empty if the part has no pictures. */
    std::function<void (juce::Graphics&, const plugin::Processor&, int option, juce::Rectangle<float>, juce::Colour)> picture{};

    /** Index of the option whose numbers are the current ones; -1 if there is none. */
    int find (const plugin::Processor&) const;

    juce::StringArray names() const;
};

/** The parts that can be chosen by name, from the presets that come with the program. */
const std::vector<NamedPart>& namedParts();

/** The chosen option as a value: its index, or -1 for numbers that match none. Setting it is one step of undo. The part must
    outlive the binding. */
ValueBinding bindingOf (plugin::Processor&, const NamedPart&);

} // namespace editor
