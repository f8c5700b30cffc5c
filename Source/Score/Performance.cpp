#include "Performance.h"

#include <cmath>

namespace score
{

Performance::Performance (std::shared_ptr<const engine::DrumModel> model, Score score)
    : drum (std::move (model)), strokes (std::move (score))
{
}

void Performance::process (float* const* outputs, int frames)
{
    for (; next < strokes.size() && sampleOf (strokes[next]) < position + frames; ++next)
        if (! drum.strike (strokes[next].stroke, static_cast<int> (sampleOf (strokes[next]) - position)))
            ++lost;

    drum.process (outputs, frames);
    position += frames;
}

std::int64_t Performance::sampleOf (const TimedStroke& stroke) const noexcept
{
    return std::llround (stroke.time / drum.model().interval());
}

} // namespace score
