#pragma once

#include "Score.h"

#include "Engine/Drum.h"

#include <cstdint>
#include <memory>

namespace score
{

/** A drum that plays a score, block by block. The result does not depend on how it is cut into blocks. */
class Performance
{
public:
    Performance (std::shared_ptr<const engine::DrumModel>, Score);

    /** Writes `frames` samples of each microphone of the model. */
    void process (float* const* outputs, int frames);

    /** Strokes so far that came while too many others waited, and were not played. */
    int lostStrokes() const noexcept { return lost; }

private:
    std::int64_t sampleOf (const TimedStroke&) const noexcept;

    engine::Drum drum;
    Score strokes;
    std::size_t next = 0;
    std::int64_t position = 0; ///< samples played
    int lost = 0;
};

} // namespace score
