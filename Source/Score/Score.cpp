#include "Score.h"

#include "Modal/InputError.h"

#include <algorithm>

namespace score
{

double lastStroke (const Score& strokes) noexcept
{
    return strokes.empty() ? 0.0 : strokes.back().time;
}

void requireBrushForSweeps (const Score& strokes, bool hasBrush, const std::string& allowed)
{
    const auto isSweep = [] (const TimedStroke& timed) { return timed.stroke.kind == engine::StrokeKind::sweep; };

    if (! hasBrush && std::any_of (strokes.begin(), strokes.end(), isSweep))
        throw modal::InputError::fault ("strokes", "sweep, but the drum is played with a stick", allowed);
}

} // namespace score
