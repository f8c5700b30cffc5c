#pragma once

#include "NamedPrediction.h"

#include "Files/Json.h"

#include <vector>

namespace reports
{

/** The change of one head from one tuning to another. */
struct HeadChange
{
    double semitones;    ///< of the tap note
    double tensionShare; ///< relative change of tension, 0.1 = 10 % more
};

HeadChange changeOf (const modal::HeadPrediction& from, const modal::HeadPrediction& to);

/** Whether every one of these drums has a resonant head to compare. */
bool haveResonantHeads (const std::vector<NamedPrediction>&);

/** Tunings as JSON: each one's whole prediction, and what changes from the first. */
files::Json comparisonJson (const std::vector<NamedPrediction>&);

} // namespace reports
