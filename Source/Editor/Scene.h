#pragma once

#include "Engine/DrumModel.h"
#include "Engine/PlayedResponse.h"
#include "Modal/Prediction.h"

#include <memory>

namespace editor
{

/** What the window shows: a tuned drum, and the one that it is compared with. Immutable parts, shared with whoever made them. */
struct Scene
{
    std::shared_ptr<const modal::Prediction> now;         ///< never null once there is a drum
    std::shared_ptr<const engine::DrumModel> model;       ///< what plays; null until the first solve
    std::shared_ptr<const engine::PlayedResponse> played; ///< null until it has been worked out for `now`
    std::shared_ptr<const modal::Prediction> before;      ///< snapshot A; null if none was taken
    std::shared_ptr<const engine::PlayedResponse> playedBefore;

    const modal::DrumModes* modes() const noexcept { return model != nullptr ? &model->setup().modes : nullptr; }
};

} // namespace editor
