#pragma once

#include "Engine/PlayedResponse.h"

#include <string>

namespace tool
{

/** "0.12 m/s", or "none" if no stroke tried wakes the wires. */
std::string softestSpeedText (const engine::WireResponsePoint&);

/** "centre", "half way", "edge" or the share of the way to the edge: "20 %". */
std::string placeText (double position);

/** The results as text. */
std::string playedText (const engine::PlayedResponse&);

} // namespace tool
