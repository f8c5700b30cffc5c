#pragma once

#include "DrumRequest.h"

#include "Engine/DrumModel.h"
#include "Modal/Prediction.h"

#include <memory>

namespace plugin
{

/** A solved drum: the request, the model that plays, the prediction. Immutable. */
struct SolvedDrum
{
    DrumRequest request;
    modal::Tensions tensions;                       ///< N/m
    std::shared_ptr<const engine::DrumModel> model; ///< its setup() holds the modes
    modal::Prediction prediction;                   ///< of the drum and tuning of `request`
    std::string refusal; ///< not empty: why the latest settings could not be solved; this is then the last drum that could

    const modal::DrumModes& modes() const noexcept { return model->setup().modes; }
};

/** Options that give the modes the plugin plays: the same options give exactly the same drum. */
modal::SolveOptions playedModes (const modal::DrumSpec&, const modal::Tensions&);

/** Options for the modes that the prediction of the same drum lists. */
modal::SolveOptions predictedModes (modal::SolveOptions played);

/** Setup of the engine for a drum with known modes. `sampleRate` in Hz. */
engine::DrumSetup setUpDrum (const DrumRequest&, const modal::Tensions&, modal::DrumModes, double sampleRate);

} // namespace plugin
