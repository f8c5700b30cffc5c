#pragma once

#include "Scene.h"

#include <juce_core/juce_core.h>

#include <vector>

namespace editor
{

/** One line of the predicted result. */
struct ResultLine
{
    /** @param tipText, uncertaintyText  UTF-8 */
    ResultLine (const char* nameText, juce::String valueText, const char* tipText, const char* uncertaintyText)
        : name (nameText), value (std::move (valueText)), uncertainty (juce::String::fromUTF8 (uncertaintyText)),
          tip (juce::String::fromUTF8 (tipText))
    {
    }

    juce::String name;        ///< complete by itself
    juce::String label;       ///< shorter text for the table; empty: the name
    juce::String value;       ///< with its unit
    juce::String change;      ///< since the compared drum, with an arrow if it exceeds the uncertainty; empty if there is
                              ///< nothing to compare
    juce::String uncertainty; ///< of the model
    juce::String tip;         ///< what it means, and what the uncertainty comes from
    float limitShare = -1.0f; ///< share of a limit, 0 to 1; below 0: no limit
    bool isGroupStart = false;
    bool isDetail = false; ///< belongs to the line above
};

/** All lines for a scene. Uncertainties are judged from the model's assumptions; none was measured on a drum. */
std::vector<ResultLine> predictedResult (const Scene&, modal::ConcertPitch);

} // namespace editor
