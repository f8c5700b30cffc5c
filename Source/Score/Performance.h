#pragma once

#include "Score.h"

#include "Engine/Drum.h"

#include <cstdint>
#include <memory>

namespace score
{

/** Plays a score on a drum, block by block. The result does not depend on the block size. */
class Performance
{
public:
    Performance (std::shared_ptr<const engine::DrumModel>, Score);

    /** Writes `frames` samples of each microphone of the model. */
    void process (float* const* outputs, int frames);

    /** Strokes not played so far because the drum's queue was full. */
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
