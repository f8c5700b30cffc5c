#include "OfflineTake.h"

#include "Pattern.h"
#include "PlayedRoom.h"

#include <algorithm>
#include <cmath>

namespace plugin
{
namespace
{
/** s after the last stroke, until drum and place have died away. */
double ringingOf (const Values& values)
{
    constexpr double usual = 3.0;
    return std::max (usual, reverberationOf (values));
}

/** The take is heard even if the plugin is bypassed. */
Values heard (Values values)
{
    values[indexOf (Parameter::bypass)] = 0.0f;
    return values;
}
} // namespace

score::Score inSeconds (const Pattern& pattern, int times, const Values& values)
{
    const auto beat = 60.0 / siOf (values, Parameter::patternTempo);
    score::Score strokes;

    for (int pass = 0; pass < times; ++pass)
        for (const auto& stroke : pattern.strokes)
            strokes.push_back ({ beat * (pass * pattern.beats + stroke.time), stroke.stroke });

    return strokes;
}

TakeRequest takeOf (const Pattern& pattern, int times, std::shared_ptr<const engine::DrumModel> model, const Values& values)
{
    return takeOf (inSeconds (pattern, times, values), std::move (model), values);
}

TakeRequest takeOf (score::Score strokes, std::shared_ptr<const engine::DrumModel> model, const Values& values)
{
    const double seconds = score::lastStroke (strokes) + ringingOf (values);
    return { std::move (model), heard (values), std::move (strokes), false, seconds };
}

TakeRequest takeOf (const engine::Stroke& stroke, std::shared_ptr<const engine::DrumModel> model, const Values& values)
{
    return { std::move (model), heard (values), { { 0.0, stroke } }, true, ringingOf (values) };
}

OfflineTake::OfflineTake (const TakeRequest& toPlay) : request (toPlay)
{
    const double rate = request.model->setup().sampleRate;
    player.room().prepare (rate);
    player.room().set (playedRoom (request.values, rate));
    player.prepare (request.model, request.values);
    frames = std::llround (request.seconds * player.sampleRate());
}

long long OfflineTake::sampleOf (const score::TimedStroke& stroke) const noexcept
{
    return std::llround (stroke.time * player.sampleRate());
}

int OfflineTake::render (float* const* buffers, int most)
{
    const auto count = static_cast<int> (std::min<long long> (most, frames - done));

    for (int written = 0; written < count;)
    {
        for (; next < request.strokes.size() && sampleOf (request.strokes[next]) <= done; ++next)
            if (request.areExact)
                player.strikeExactly (request.strokes[next].stroke);
            else
                player.strike (request.strokes[next].stroke, false);

        auto part = static_cast<long long> (count - written);
        if (next < request.strokes.size())
            part = std::min (part, sampleOf (request.strokes[next]) - done);

        PlayerOutputs outputs{ buffers[0] + written, buffers[1] + written, {} };
        for (std::size_t m = 0; m < outputs.microphones.size(); ++m)
            outputs.microphones[m] = buffers[2 + m] + written;
        player.render (outputs, static_cast<int> (part));
        written += static_cast<int> (part);
        done += part;
    }

    return count;
}

} // namespace plugin
