#pragma once

#include "Arguments.h"
#include "Playing.h"
#include "Take.h"
#include "TunedDrum.h"
#include "WavFile.h"

#include "Engine/Microphone.h"

#include <optional>

namespace tool
{

/** How a performance is recorded. */
struct RenderSettings
{
    Pickup pickup = Pickup::stereo;
    Detail detail = Detail::live;
    double sampleRate = 48000.0; ///< Hz
    SampleFormat format = SampleFormat::integer24;
    std::optional<double> seconds;   ///< without it, as long as the last stroke rings
    std::optional<double> fullScale; ///< Pa; without it the loudest sample goes of all tunings goes a little below full scale
    std::optional<double> loudness;  ///< LUFS, of each file
    bool showsProgress = false;
};

/** The options that say how a performance is recorded. */
const OptionGroup& renderOptions();

/** Throws modal::InputError. */
RenderSettings readRenderSettings (const Arguments&);

/** The settings for a drum that is in a place: it is heard by the listener, unless a microphone is asked for. */
RenderSettings inPlace (RenderSettings, const Arguments&);

/** The three microphones above, below and distant, at the positions from the options or else from the drum's file. Throws
   modal::InputError for a position inside the drum, too near to it, or on the wrong side of it for the microphone's name. */
std::vector<engine::Microphone> readMicrophones (const Arguments&, const TunedDrum&);

/** Their parts in the stereo mix: those of the drum's file, or the usual ones. */
StereoParts mixOf (const TunedDrum&);

} // namespace tool
