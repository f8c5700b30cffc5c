#pragma once

#include "Listening/Strikes.h"
#include "Listening/LugCheck.h"
#include "Fitting/Drum.h"

#include <string>
#include <vector>

namespace tool
{

/** Throws modal::InputError on `field` if the file cannot be read, or has another number of taps than listening::hearLugCheck()
    takes. */
listening::RecordedLugCheck hearLugCheck (const std::string& path, const std::string& field, const modal::DrumSpec&, bool hasPatch);

/** Every strike that can be used in one or several recordings. */
struct HeardStrikes
{
    std::vector<listening::Strike> strikes;
    std::string remarks;
};

/** @param paths  files with commas between, or a folder. Throws modal::InputError on `field` if one cannot be read, or if no strike in them
   can be used: the message says why, wires that are on first of all. */
HeardStrikes hearStrikes (const std::string& paths, const std::string& field);

} // namespace tool
