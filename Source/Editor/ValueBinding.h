#pragma once

#include <juce_core/juce_core.h>

#include <functional>

namespace editor
{

/** One number that a person can read and set, wherever it is kept. */
struct ValueBinding
{
    std::function<double()> get;
    std::function<void (double)> set;                       ///< brings the value into range
    std::function<juce::String (double)> toText;            ///< with its unit
    std::function<juce::String (const juce::String&)> type; ///< sets what a person typed; returns why not, or nothing
    std::function<void()> begin = [] {}, end = [] {};       ///< around a change that undo takes back as one
    std::function<juce::String()> limits; ///< where a value was asked for that `set` had to bring nearer: why; may be empty
    double low = 0.0, high = 1.0;
    double step = 1.0;     ///< of an arrow key
    double fineStep = 0.1; ///< with shift held
};

/** What a control says about itself. */
struct ControlText
{
    juce::String name; ///< what it sets
    juce::String unit; ///< of its number; "note", "name" or "count" where there is no other
    juce::String tip;  ///< one sentence of physics
};

} // namespace editor
