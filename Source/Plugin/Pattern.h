#pragma once

#include "Score/Score.h"

#include <string>
#include <vector>

namespace plugin
{

/** A phrase that repeats.

        { "format": "snarewright-pattern", "version": 1, "name": "Backbeat", "steps_per_beat": 4, "text": "....o8......o8.." }

    The text is that of score::readPattern(). A pattern that was renamed has its "former_name". */
struct Pattern
{
    std::string name;
    std::string formerName; ///< a name that saved states may still hold; empty if there is none
    std::string text;       ///< as in the document
    int stepsPerBeat = 4;
    double beats = 4.0;
    score::Score strokes; ///< times in beats from the start
};

/** Throws modal::InputError naming the path of the field, the value and what is allowed. */
Pattern readPattern (const std::string& text, const std::string& source);

} // namespace plugin
