#pragma once

#include "Engine/PlayedResponse.h"
#include "Files/Json.h"

#include <string>

namespace tool
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

/** "0.12 m/s", or "none" if no stroke tried wakes the wires. */
std::string softestSpeedText (const engine::WireResponsePoint&);

/** "centre", "half way", "edge" or the share of the way to the edge: "20 %". */
std::string placeText (double position);

/** The results as text. */
std::string playedText (const engine::PlayedResponse&);

/** The same as JSON; the speed is null at a place where no stroke wakes the wires. */
files::Json playedJson (const engine::PlayedResponse&);

} // namespace tool
