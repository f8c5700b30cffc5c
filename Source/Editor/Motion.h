#pragma once

#include "Engine/DrumModel.h"
#include "Engine/Stroke.h"

#include <memory>
#include <vector>

namespace editor
{

/** The drum's motion after one strike, as the engine computes it, sampled finely enough to be shown slowed. */
struct Motion
{
    struct Frame
    {
        std::vector<float> field;  ///< displacement in terms of the basis: batter, then resonant (DrumModel::toField)
        std::vector<float> strand; ///< m, heights of the wire in the middle above the plane of the resonant head, from -x to +x
        float stick = 1.0f;        ///< m, the tip above the batter's plane; 1 when it is away
    };

    std::shared_ptr<const engine::DrumModel> model; ///< that was struck
    engine::Stroke stroke;
    double frameTime = 0.0; ///< s between frames
    std::vector<Frame> frames;
    std::vector<float> strandX; ///< m, where the strand's points lie
    float batterPeak = 0.0f;    ///< m, the largest displacement of each head along the section, for a scale
    float resonantPeak = 0.0f;

    double length() const noexcept { return frameTime * static_cast<double> (frames.size()); } ///< s
};

/** Strikes a drum of this model and follows it. Some tens of milliseconds of one core; not for the message thread. */
Motion followStrike (std::shared_ptr<const engine::DrumModel>, const engine::Stroke&, double seconds = 0.09);

} // namespace editor
