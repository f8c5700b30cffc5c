#pragma once

#include "Engine/DrumSetup.h"
#include "Files/DrumFile.h"
#include "Modal/Prediction.h"

#include <optional>
#include <string>
#include <vector>

namespace web
{

/** A drum with the tuning in use, the first of its document. */
struct TunedDrum
{
    modal::DrumSpec drum;
    modal::Tuning tuning;
    modal::Fittings fittings;
    std::optional<place::Place> place; ///< where it is played and heard, if anywhere

    std::string label() const;
};

/** What errors call the drum. */
inline constexpr auto documentName = "drum file";

/** Reads a drum file and its first tuning. @throws modal::InputError */
TunedDrum readDocument (const files::Json& document);

/** Prediction with modes up to `highest` Hz, as the program predicts. @throws modal::InputError where that leaves out the drum
 * note */
modal::Prediction predictionOf (const TunedDrum&, double highest);

/** Setup for playing with about so many modes of the heads and the usual three microphones. `sampleRate` in Hz. */
engine::DrumSetup setUpToPlay (const TunedDrum&, double modes, double sampleRate);

} // namespace web
