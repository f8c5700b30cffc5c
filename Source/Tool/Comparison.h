#pragma once

#include "NamedPrediction.h"

#include "Files/Json.h"

#include <string>
#include <vector>

namespace tool
{

/** The change of one head from one tuning to another. */
struct HeadChange
{
    double semitones;    ///< of the tap note
    double tensionShare; ///< relative change of tension, 0.1 = 10 % more
};

HeadChange changeOf (const modal::HeadPrediction& from, const modal::HeadPrediction& to);

/** Tunings side by side; changes count from the first. */
std::string comparisonText (const std::vector<NamedPrediction>&);

/** The same as JSON: each tuning's whole prediction, and what changes from the first. */
files::Json comparisonJson (const std::vector<NamedPrediction>&);

} // namespace tool
