#pragma once

#include "Engine/DrumSetup.h"
#include "Engine/Stroke.h"
#include "Place/Place.h"

namespace score
{

/** Plays one stroke (if not given of the tip, 3 m/s, a quarter of the way to the edge) and measures its energy in each octave
   over one second, at the last microphone of the setup but as if that stood at 1 m, Pa² s. Takes a tenth of a second of one core.

    @throws modal::InputError if the setup cannot be played or has no microphone */
place::Octaves strokeEnergy (const engine::DrumSetup&, const engine::Stroke& = {});

/** The same of a sound: energy in each octave, the square of the samples' unit times s. */
place::Octaves octaveEnergy (const std::vector<float>& samples, double sampleRate);

/** m from the centre of the batter head. */
double distanceOf (const engine::Microphone&) noexcept;

} // namespace score
