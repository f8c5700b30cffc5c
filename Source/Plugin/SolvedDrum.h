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

} // namespace plugin
