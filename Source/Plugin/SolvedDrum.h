#pragma once

#include "DrumRequest.h"

#include "Engine/DrumModel.h"
#include "Modal/Prediction.h"

#include <memory>

namespace plugin
{

/** A drum that has been worked out: what was asked, what sounds, and what is predicted. Immutable. */
struct SolvedDrum
{
    DrumRequest request;
    modal::Tensions tensions;                       ///< N/m
    std::shared_ptr<const engine::DrumModel> model; ///< its setup() holds the modes
    modal::Prediction prediction;                   ///< of the drum and tuning of `request`
    std::string refusal; ///< not empty: the latest settings cannot be had, and this is the last drum that could

    const modal::DrumModes& modes() const noexcept { return model->setup().modes; }
};

/** How many modes of a drum are played. Whoever works a drum out with these gets what is heard, to the last digit. */
modal::SolveOptions playedModes (const modal::DrumSpec&, const modal::Tensions&);

/** How many of them a prediction of the same drum names. */
modal::SolveOptions predictedModes (modal::SolveOptions played);

/** All that is played of a drum whose modes are known. `sampleRate` in Hz. */
engine::DrumSetup setUpDrum (const DrumRequest&, const modal::Tensions&, modal::DrumModes, double sampleRate);

} // namespace plugin
