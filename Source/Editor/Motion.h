#pragma once

#include "Engine/DrumModel.h"
#include "Engine/Stroke.h"

#include <memory>
#include <vector>

namespace editor
{

/** The drum's motion after one strike, computed by the engine and sampled finely enough for slow motion. */
struct Motion
{
    struct Frame
    {
        std::vector<float> field;  ///< displacement in terms of the basis: batter, then resonant (DrumModel::toField)
        std::vector<float> strand; ///< m, heights of the centre strand above the plane of the resonant head, from -x to +x
        float stick = 1.0f;        ///< m, the tip above the batter's plane; 1 when it is away
        std::vector<float> bend;   ///< m, how far the stick is bent from a straight line, against its tip, from tip to butt; a brush's wires alone
    };

    std::shared_ptr<const engine::DrumModel> model; ///< that was struck
    engine::Stroke stroke;
    double frameTime = 0.0; ///< s between frames
    std::vector<Frame> frames;
    std::vector<float> strandX; ///< m, places of the strand's points
    float batterPeak = 0.0f;    ///< m, the largest displacement of each head along the section, for a scale
    float resonantPeak = 0.0f;

    double length() const noexcept { return frameTime * static_cast<double> (frames.size()); } ///< s
};

/** Plays one stroke on a drum of this model and records its motion. Takes tens of milliseconds; not for the message thread. */
Motion followStrike (std::shared_ptr<const engine::DrumModel>, const engine::Stroke&, double seconds = 0.09);

} // namespace editor
