#pragma once

#include "Player.h"

#include "Score/Score.h"

namespace plugin
{

struct Pattern;

/** What to play offline, and how. */
struct TakeRequest
{
    std::shared_ptr<const engine::DrumModel> model;
    Values values = initialValues(); ///< levels, pans, gain, place; and the strokes' angle, pressure and delays
    score::Score strokes;
    bool areExact = false; ///< strokes sound exactly as given; otherwise the values say their angle, pressure and delays
    double seconds = 0.0;  ///< length of the take
};

/** A pattern, so many times over, at the tempo that the values say. */
score::Score inSeconds (const Pattern&, int times, const Values&);

/** The same and its decay. */
TakeRequest takeOf (const Pattern&, int times, std::shared_ptr<const engine::DrumModel>, const Values&);

/** Strokes of a part, and their decay. */
TakeRequest takeOf (score::Score, std::shared_ptr<const engine::DrumModel>, const Values&);

/** One stroke and its decay. */
TakeRequest takeOf (const engine::Stroke&, std::shared_ptr<const engine::DrumModel>, const Values&);

/** Plays what the plugin would play, in the place if it is on, as fast as the processor can: sample for sample the same. */
class OfflineTake
{
public:
    explicit OfflineTake (const TakeRequest&);

    static constexpr int channels = 2 + microphoneCount; ///< left, right, above, below, distant

    long long length() const noexcept { return frames; }

    /** Writes the next samples into `channels` buffers and returns how many: `most`, fewer at the end, 0 after it. */
    int render (float* const* buffers, int most);

private:
    long long sampleOf (const score::TimedStroke&) const noexcept;

    StrikeRecording recording;
    Player player{ recording };
    TakeRequest request;
    long long frames, done = 0;
    std::size_t next = 0;
};

} // namespace plugin
