#pragma once

#include "Engine/DrumModel.h"
#include "Engine/PlayedResponse.h"
#include "Modal/Prediction.h"
#include "Place/AtListener.h"

#include <memory>

namespace editor
{

/** The drum shown and the one it is compared with. All parts are immutable and shared. */
struct Scene
{
    std::shared_ptr<const modal::Prediction> now;         ///< never null once there is a drum
    std::shared_ptr<const engine::DrumModel> model;       ///< the model that plays; null until the first solve
    std::shared_ptr<const engine::PlayedResponse> played; ///< null until calculated for `now`
    bool isInPlace = false;
    std::shared_ptr<const place::AtListener> atListener; ///< in the place; null until calculated for `now`
    double tempo = 100.0;                                ///< beats per minute, against which it is counted
    std::shared_ptr<const modal::Prediction> before;      ///< null if there is nothing to compare with
    std::shared_ptr<const engine::PlayedResponse> playedBefore;

    const modal::DrumModes* modes() const noexcept { return model != nullptr ? &model->setup().modes : nullptr; }
};

} // namespace editor
