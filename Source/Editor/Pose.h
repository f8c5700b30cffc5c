#pragma once

#include <vector>

namespace editor
{

/** Shape of the heads, a strand and the stick at one moment. */
struct Pose
{
    std::vector<float> field;   ///< batter then resonant, in terms of the basis; empty: at rest
    float scale = 0.0f;         ///< factor that makes the largest displacement 1
    std::vector<float> strand;  ///< heights of the centre strand above the resonant head's plane, same unit; empty: at rest
    std::vector<float> strandX; ///< share of the radius
    float stick = 1.0f;         ///< tip above the batter, m; 1: away
    std::vector<float> bend;    ///< of the stick at even steps from its tip to its butt, m, upwards against its tip; empty: straight
    float stickX = 0.0f;        ///< share of the radius along the cut of the batter
    double cutAngle = 0.0; ///< rad, of the diameter along which the batter is shown; the resonant head is cut along the wires
    bool isMode = false;
};

} // namespace editor
