#pragma once

#include "Values.h"

#include "Engine/DrumSetup.h"
#include "Files/DrumFile.h"

#include <optional>

namespace plugin
{

/** A drum, a tuning and everything needed to play it, from the parameters. */
struct DrumRequest
{
    modal::DrumSpec drum;
    modal::Weather weather; ///< of which `drum.air` follows
    modal::Tuning tuning;
    modal::WireSpec wires;
    modal::StickSpec stick;
    modal::HoopSpec hoop;
    std::vector<engine::Microphone> microphones; ///< above, below, distant
    std::optional<place::Place> place;           ///< if one is on
};

/** The request that the parameters describe.

    @param playedNote   MIDI note that replaces the batter note, if one was played on the tuning channel
    @throws modal::InputError for values out of range; whether the drum reaches the tuning is checked by the solver
*/
DrumRequest requestOf (const Values&, std::optional<int> playedNote = std::nullopt);

/** The parameters that describe a part, and what they are for this one, in SI. */
using PartNumbers = std::vector<std::pair<Parameter, double>>;
PartNumbers batterNumbers (const modal::HeadConstruction&);
PartNumbers resonantNumbers (const modal::HeadConstruction&);
PartNumbers wireNumbers (const modal::WireSpec&);
PartNumbers stickNumbers (const modal::StickSpec&);
PartNumbers placeNumbers (const place::Place&);

/** The stick that the parameters describe. */
modal::StickSpec stickOf (const Values&);

/** The place that the parameters describe, moved within what can be (place::madePossible); none if it is off. */
std::optional<place::Place> placeOf (const Values&);

/** Sets the parameters that describe a drum file's drum, one of its tunings, and its place if it has one; the others keep their values.

    @throws modal::InputError naming the parameter that cannot hold the drum's value, or the tuning that does not exist;
            `values` is then unchanged
*/
void setDrum (Values& values, const files::DrumFile&, std::size_t tuning);

/** Sets the parameters that describe what lies on this drum's heads, and the wires.

    @throws modal::InputError naming the parameter that cannot hold a value; `values` is then unchanged */
void setMufflingAndWires (Values& values, const modal::DrumSpec&, const modal::WireSpec&);

/** The same drum and tuning as a drum file, for the command line program and others. */
files::DrumFile drumFileOf (const Values&, const std::string& name);

} // namespace plugin
