#pragma once

#include "Engine/PlayedResponse.h"
#include "Files/Json.h"

#include <string>

namespace tool
{

/** A number that playing tells, in the words and the unit that people read. */
struct PlayedNumber
{
    const char* words;
    const char* jsonKey; ///< ends in the unit
    double value;        ///< in that unit
    int decimals;
    const char* unit; ///< as shown
};

/** All but the wires' curve. */
std::vector<PlayedNumber> playedNumbers (const engine::PlayedResponse&);

/** "0.12 m/s", or that not even the hardest stroke tried does it. */
std::string softestSpeedText (const engine::WireResponsePoint&);

/** For reading, below a prediction. */
std::string playedText (const engine::PlayedResponse&);

/** The same as JSON; a place where no stroke wakes the wires has null for its speed. */
files::Json playedJson (const engine::PlayedResponse&);

} // namespace tool
