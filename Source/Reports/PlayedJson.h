#pragma once

#include "Engine/PlayedResponse.h"
#include "Files/Json.h"

#include <vector>

namespace reports
{

/** One result of a played stroke, with its name and unit as shown. */
struct PlayedNumber
{
    const char* name;
    const char* jsonKey; ///< ends in the unit
    double value;        ///< in that unit
    int decimals;
    const char* unit; ///< as shown
};

/** All results but the snare response. */
std::vector<PlayedNumber> playedNumbers (const engine::PlayedResponse&);

/** All results as JSON; the speed is null at a place where no stroke wakes the wires. */
files::Json playedJson (const engine::PlayedResponse&);

} // namespace reports
