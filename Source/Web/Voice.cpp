#include "Voice.h"

#include "Modal/InputError.h"
#include "Plugin/Ceiling.h"
#include "Plugin/PatternPlayer.h"
#include "Score/PatternText.h"

#include <algorithm>
#include <cmath>

namespace web
{

namespace
{
constexpr double gainTime = 5.0e-3;     // s
constexpr std::size_t mostWaiting = 16; // strokes
constexpr double usualTempo = 100.0;
} // namespace

Voice::Voice (double sampleRate) : rate (sampleRate)
{
    for (auto& model : models)
        model = std::make_shared<engine::DrumModel>();

    waiting.reserve (mostWaiting);
    gain.prepare (rate, gainTime, 1.0f);
    microphones.prepare (rate, gainTime, 1.0f);
    room.prepare (rate);
    setTempo (usualTempo);
}

std::span<std::byte> Voice::spaceFor (std::size_t size)
{
    received.resize (size);
    return received;
}

void Voice::takeModel()
{
    auto& next = *models[free];
    next.read (received);

    if (next.setup().sampleRate != rate)
        throw modal::InputError ("drum model: sample rate", modal::asText (next.setup().sampleRate) + " Hz",
                                 modal::asText (rate) + " Hz");

    if (drum == nullptr)
        drum = std::make_unique<engine::Drum> (models[free]);
    else
        drum->setModel (models[free]);

    free = 1 - free;

    for (const auto& stroke : waiting)
        drum->strike (stroke);

    waiting.clear();
}

void Voice::takeRoom()
{
    std::unique_ptr<place::Room> next;

    if (! received.empty())
    {
        next = std::make_unique<place::Room> (received);

        if (next->sampleRate() != rate)
            throw modal::InputError ("room: sample rate", modal::asText (next->sampleRate()) + " Hz",
                                     modal::asText (rate) + " Hz");
    }

    if (drum != nullptr)
    {
        nextRoom = std::move (next);
        return;
    }

    microphones.prepare (rate, gainTime, next != nullptr ? 0.0f : 1.0f);
    room.set (std::move (next));
}

void Voice::changeRoom() noexcept
{
    if (! nextRoom || room.isFading())
        return;

    room.takeFormer();
    room.fadeTo (std::move (*nextRoom));
    nextRoom.reset();
    microphones.setTarget (room.hasRoom() ? 0.0f : 1.0f);
}

void Voice::strike (const engine::Stroke& stroke, int sampleOffset) noexcept
{
    if (drum != nullptr)
        drum->strike (stroke, sampleOffset);
    else if (waiting.size() < mostWaiting)
        waiting.push_back (stroke);
}

void Voice::setPattern (plugin::Pattern next, bool repeats)
{
    pattern = std::move (next);
    patternRepeats = repeats;
    now = 0.0;
}

void Voice::setTempo (double beatsPerMinute) noexcept
{
    beatsPerSample = std::clamp (beatsPerMinute, score::tempoRange.low, score::tempoRange.high) / 60.0 / rate;
}

void Voice::silence() noexcept
{
    waiting.clear();

    if (drum != nullptr)
        drum->reset();

    room.reset();
}

void Voice::setGain (double decibels) noexcept
{
    constexpr double least = -100.0, most = 12.0;
    gain.setTarget (decibels > least ? static_cast<float> (std::pow (10.0, std::min (decibels, most) / 20.0)) : 0.0f);
}

void Voice::playPattern (int frames) noexcept
{
    if (pattern.strokes.empty())
        return;

    const double next = now + frames * beatsPerSample;
    const bool isLast = ! patternRepeats && next >= pattern.beats;

    plugin::playPattern (pattern, { now, 1.0 / beatsPerSample }, frames,
                         [&] (int sample, engine::Stroke stroke)
                         {
                             stroke.sweepTime /= beatsPerSample * rate; // from beats
                             if (patternRepeats || now + sample * beatsPerSample < pattern.beats)
                                 strike (stroke, sample);
                         });
    now = next >= pattern.beats ? next - pattern.beats : next;

    if (isLast)
        pattern.strokes.clear();
}

void Voice::process (float* left, float* right, int frames) noexcept
{
    if (drum == nullptr)
    {
        std::fill_n (left, frames, 0.0f);
        std::fill_n (right, frames, 0.0f);
        return;
    }

    playPattern (frames);
    changeRoom();
    std::array<float*, score::UsualMix::microphones> outputs{};

    for (std::size_t m = 0; m < outputs.size(); ++m)
        outputs[m] = heard[m].data();

    drum->process (outputs.data(), frames);
    mixer.mix (outputs.data(), left, right, frames);

    room.process (heard.back().data(), roomLeft.data(), roomRight.data(), frames);

    for (int i = 0; i < frames; ++i)
    {
        const auto at = static_cast<std::size_t> (i);
        const float level = gain.next(), close = microphones.next();
        left[i] = plugin::belowCeiling (level * (close * left[i] + far * roomLeft[at]));
        right[i] = plugin::belowCeiling (level * (close * right[i] + far * roomRight[at]));
    }
}

} // namespace web
