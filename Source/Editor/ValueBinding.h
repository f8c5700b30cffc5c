#pragma once

#include <juce_core/juce_core.h>

#include <functional>

namespace editor
{

/** Access to a number that a control shows and sets. */
struct ValueBinding
{
    std::function<double()> get;
    std::function<void (double)> set;                       ///< limits the value to its range
    std::function<juce::String (double)> toText;            ///< with its unit
    std::function<juce::String (const juce::String&)> type; ///< sets the typed value; returns the reason of a refusal, or nothing
    std::function<void()> begin = [] {}, end = [] {};       ///< enclose a change that is one undo step
    std::function<juce::String()> limits;                   ///< why `set` limited a value; may be empty
    double low = 0.0, high = 1.0;
    double step = 1.0;     ///< of an arrow key
    double fineStep = 0.1; ///< with shift held
};

/** Text of a control. */
struct ControlText
{
    juce::String name; ///< what it sets
    juce::String unit; ///< of its number; "note", "name" or "count" where there is no other
    juce::String tip;  ///< tooltip
};

} // namespace editor
