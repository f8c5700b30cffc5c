#pragma once

#include "TunedDrum.h"

#include "Engine/DrumSetup.h"
#include "Reports/NamedPrediction.h"

namespace tool
{

/** How fine the model of heads and wires is. */
enum class Detail
{
    live, ///< as in a session: about 400 modes, eight model strands
    fine  ///< some three times the modes, up to twenty strands, more contacts on each; slow
};

/** Solves a drum and sets it up for playing. `highestFrequency` in Hz; without it, as high as playing needs. Throws
    modal::InputError. */
engine::DrumSetup setUpToPlay (const TunedDrum&, std::vector<engine::Microphone>, double sampleRate,
                               std::optional<double> highestFrequency, Detail = Detail::live);

/** The option that asks for the figures of a played stroke. */
inline const Option playedOption{ "played", "",
                                  "also play one stroke: contact time, rebound, dryness, snare response; half a second more" };

/** The prediction up to `--highest`, or 2 kHz, with the ring as played where there are wires, and with `--played` the results of one
    stroke, heard from above. */
reports::NamedPrediction predictAndPlay (const Arguments&, const TunedDrum&, const std::string& label);

} // namespace tool
