#pragma once

#include "Values.h"

#include "Engine/DrumSetup.h"
#include "Files/DrumFile.h"

#include <optional>

namespace plugin
{

/** A drum, a tuning and all that is needed to play it, as the parameters describe them. */
struct DrumRequest
{
    modal::DrumSpec drum;
    modal::Weather weather; ///< `drum.air` is of this weather
    modal::Tuning tuning;
    modal::WireSpec wires;
    modal::StickSpec stick;
    modal::HoopSpec hoop;
    std::vector<engine::Microphone> microphones; ///< above, below, distant
};

/** What the parameters ask for.

    @param playedNote   MIDI note that takes the place of the batter note, if one was played on the tuning channel
    @throws modal::InputError for what cannot be put in figures; whether the drum can be tuned so is for the solver to say
*/
DrumRequest requestOf (const Values&, std::optional<int> playedNote = std::nullopt);

/** Sets the parameters that describe a drum file's drum and one of its tunings; the others keep their values.

    @throws modal::InputError naming the parameter that cannot hold what the drum asks for, or the tuning that is not there;
            `values` is then as it was
*/
void setDrum (Values& values, const files::DrumFile&, std::size_t tuning);

/** The same drum and tuning as a drum file, for the command line program and others. */
files::DrumFile drumFileOf (const Values&, const std::string& name);

} // namespace plugin
