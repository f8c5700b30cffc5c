#pragma once

#include "Scene.h"

#include <juce_core/juce_core.h>

#include <vector>

namespace editor
{

/** One thing that comes of a tuning, in plain words. */
struct Outcome
{
    /** @param tipText, uncertaintyText  UTF-8 */
    Outcome (const char* nameText, juce::String valueText, const char* tipText, const char* uncertaintyText)
        : name (nameText), value (std::move (valueText)), uncertainty (juce::String::fromUTF8 (uncertaintyText)),
          tip (juce::String::fromUTF8 (tipText))
    {
    }

    juce::String name;   ///< tells all by itself
    juce::String label;  ///< stands for the name where the lines around it help; empty: the name
    juce::String value;  ///< with its unit
    juce::String change; ///< against the snapshot, with an arrow if it is larger than what the model may be off; empty if there
                         ///< is none or nothing to compare
    juce::String uncertainty; ///< how far off the model may be
    juce::String tip;         ///< one sentence of physics, and what the uncertainty rests on
    float limitShare = -1.0f; ///< of a limit that must not be passed, 0 to 1; below 0: there is none
    bool isGroupStart = false;
    bool isDetail = false; ///< says more about the line above
};

/** Everything there is to say about a scene. Uncertainty is a judgement from what the model is built on, stated in each tip; none
   of it was measured on a drum. */
std::vector<Outcome> outcomesOf (const Scene&, modal::ConcertPitch);

} // namespace editor
