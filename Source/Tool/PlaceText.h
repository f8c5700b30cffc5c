#pragma once

#include "Arguments.h"

#include "Reports/NamedPrediction.h"

#include <string>
#include <vector>

namespace tool
{

struct TunedDrum;

/** The option that sets the beat against which placeText() counts. */
extern const Option tempoOption;

/** What the place of the drum makes of it; none without a place. Plays one stroke. */
std::optional<reports::InPlace> inPlace (const Arguments&, const TunedDrum&, const modal::Prediction&);

/** One result of a place. */
struct PlaceRow
{
    std::string name, value; ///< no value where it does not apply, as for wires that are off
    std::string note;        ///< what it means
};

/** The results, always in the same order. */
std::vector<PlaceRow> placeRows (const reports::InPlace&);

/** "Club, 1500 m3, 9.1 m from the drum". */
std::string whereText (const reports::InPlace&);

/** The results as text. */
std::string placeText (const reports::InPlace&);

} // namespace tool
