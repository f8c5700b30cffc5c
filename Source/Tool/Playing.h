#pragma once

#include "DrumOptions.h"

#include "Engine/DrumSetup.h"
#include "Engine/PlayedResponse.h"

namespace tool
{

/** How finely heads and wires are followed. */
enum class Detail
{
    live, ///< as in a session: about 400 modes, eight model strands
    fine  ///< some three times the modes, up to twenty strands, more contacts on each; slow
};

/** Solves a drum and sets it up for playing. `highestFrequency` in Hz; without it as far as playing needs. Throws
    modal::InputError. */
engine::DrumSetup setUpToPlay (const TunedDrum&, std::vector<engine::Microphone>, double sampleRate,
                               std::optional<double> highestFrequency, Detail = Detail::live);

/** The option that asks for playedIfAsked(). */
inline const Option playedOption{ "played", "", "play the drum and say how stick and wires answer; takes about half a second" };

/** With `--played`, what playing the drum tells, heard from above. */
std::optional<engine::PlayedResponse> playedIfAsked (const Arguments&, const TunedDrum&);

} // namespace tool
