#pragma once

#include "Scene.h"

#include <juce_core/juce_core.h>

#include <vector>

namespace editor
{

/** One thing that comes of a tuning, in plain words. */
struct Outcome
{
    juce::String name;
    juce::String value;       ///< with its unit
    juce::String change;      ///< against the snapshot; empty if there is none or nothing to compare
    juce::String sureness;    ///< how far off the model may be
    juce::String tip;         ///< one sentence of physics, and what the sureness rests on
    float limitShare = -1.0f; ///< of a limit that must not be passed, 0 to 1; below 0: there is none
    bool isGroupStart = false;
};

/** Everything there is to say about a scene. Sureness is a judgement from what the model is built on, stated in each tip; none of
    it was measured on a drum. */
std::vector<Outcome> outcomesOf (const Scene&, modal::ConcertPitch);

} // namespace editor
