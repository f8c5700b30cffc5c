#pragma once

#include "Taps.h"

#include "Fitting/Partial.h"

#include <vector>

namespace listening
{

/** What a recording holds, where that is certain. */
enum class Nature
{
    drum,      ///< or nothing that rules one out
    noStroke,  ///< nothing starts suddenly
    harmonics, ///< of one pitch: a voice or another instrument
    cymbal,    ///< most of what rings on lies above 3.5 kHz
    kick       ///< most of what rings on lies below 90 Hz
};

/** By the loudest tap. @param partials  of each tap */
Nature natureOf (const Recording&, const std::vector<Tap>&, const std::vector<std::vector<fitting::Partial>>& partials);

} // namespace listening
