#pragma once

#include "StrokeSet.h"

#include "Sheets/Canvas.h"

#include <string>
#include <vector>

namespace recordings
{

/** For each set and class of strokes the spectrogram of its first stroke, with time to the right and frequency upwards (mel), and
    below it how the octaves from 1 kHz up decay. The bytes of a file. */
std::string picture (const std::vector<StrokeSet>&, sheets::Format);

} // namespace recordings
