#include "Player.h"

#include "Ceiling.h"

#include "Modal/Units.h"

#include <algorithm>

namespace plugin
{
namespace
{
using P = Parameter;

constexpr double gainTime = 5.0e-3;   ///< s, of level, pan and gain
constexpr double bypassTime = 5.0e-3; ///< s
constexpr double chokeTime = 10.0e-3; ///< s, fade by a hand laid on the head; common practice, no source
constexpr float inaudible = 1.0e-3f;  ///< a choked drum below this gain is reset by a new stroke

/** The lowest value of a level is silence. */
float gainOf (const Values& values, P parameter) noexcept
{
    const auto decibels = valueOf (values, parameter);
    return static_cast<double> (decibels) <= specOf (parameter).low ? 0.0f : std::pow (10.0f, 0.05f * decibels);
}
} // namespace

void Player::prepare (std::shared_ptr<const engine::DrumModel> model, const Values& values)
{
    rate = model->setup().sampleRate;
    drum = std::make_unique<engine::Drum> (std::move (model));
    heldPosition = notHeld;
    pressure = 0.0;
    isChoking = false;
    isBypassed = isOn (values, P::bypass);

    setValues (values);
    const auto startAt = [this] (Ramp& ramp, double time, float value) { ramp.prepare (rate, time, value); };
    for (std::size_t m = 0; m < channels.size(); ++m)
    {
        auto& channel = channels[m];
        startAt (channel.level, gainTime, channel.level.goal());
        startAt (channel.left, gainTime, channel.left.goal());
        startAt (channel.right, gainTime, channel.right.goal());
    }
    startAt (output, gainTime, output.goal());
    startAt (placeGain, gainTime, placeGain.goal());
    startAt (microphonesGain, gainTime, microphonesGain.goal());
    startAt (choked, chokeTime, 1.0f);
    startAt (bypassed, bypassTime, isBypassed ? 0.0f : 1.0f);
}

std::shared_ptr<const engine::DrumModel> Player::setModel (std::shared_ptr<const engine::DrumModel> model) noexcept
{
    return drum->setModel (std::move (model));
}

void Player::setValues (const Values& values) noexcept
{
    settings = values;

    for (std::size_t m = 0; m < channels.size(); ++m)
    {
        const auto& parameters = microphoneParameters[m];
        const auto angle = 0.25f * static_cast<float> (modal::units::pi) * (1.0f + valueOf (values, parameters.pan));
        channels[m].level.setTarget (gainOf (values, parameters.level) * (isOn (values, parameters.inverted) ? -1.0f : 1.0f));
        channels[m].left.setTarget (std::cos (angle));
        channels[m].right.setTarget (std::sin (angle));
    }

    placeGain.setTarget (gainOf (values, P::placeLevel));
    microphonesGain.setTarget (roomFader.hasRoom() ? gainOf (values, P::microphonesInPlace) : 1.0f);
    output.setTarget (gainOf (values, P::gain));
    isBypassed = isOn (values, P::bypass);
    bypassed.setTarget (isBypassed ? 0.0f : 1.0f);
}

void Player::strike (engine::Stroke stroke, bool usesPlayersPosition) noexcept
{
    if (usesPlayersPosition)
        stroke.position = heldPosition >= 0.0 ? 0.98 * heldPosition : siOf (settings, P::strokePlace);

    stroke.angle = siOf (settings, P::strokeAngle);
    stroke.rimLag = siOf (settings, P::rimLag);
    stroke.pressForce = siOf (settings, P::pressForce);
    stroke.pressTime = siOf (settings, P::pressTime);
    stroke.secondDelay = siOf (settings, P::doubleDelay);
    stroke.secondShare = siOf (settings, P::doubleShare);
    stroke.sweepForce = siOf (settings, P::sweepForce);

    if (pressure > 0.0)
    {
        // A stick pressed while it strikes buzzes. Pressure maps exponentially to the range of the hand's force; a brush sweeps with it.
        const auto pressed = [this] (const ParameterSpec& force)
        { return force.low * std::pow (force.high / force.low, pressure); };
        stroke.pressForce = pressed (specOf (P::pressForce));
        stroke.sweepForce = pressed (specOf (P::sweepForce));
        if (stroke.kind == engine::StrokeKind::tip)
            stroke.kind = engine::StrokeKind::buzz;
    }

    strikeExactly (stroke);
}

void Player::strikeExactly (const engine::Stroke& stroke) noexcept
{
    if (isBypassed)
        return;

    if (isChoking && choked.value() < inaudible)
        restart();

    isChoking = false;
    choked.setTarget (1.0f);
    recording.begin (stroke);
    drum->strike (stroke);
}

void Player::choke() noexcept
{
    isChoking = true;
    choked.setTarget (0.0f);
}

void Player::silence() noexcept
{
    restart();
    roomFader.reset();
}

void Player::restart() noexcept
{
    drum->reset();
    isChoking = false;
    choked.prepare (rate, chokeTime, 1.0f);
}

void Player::resetControllers() noexcept
{
    heldPosition = notHeld;
    pressure = 0.0;
}

void Player::render (const PlayerOutputs& outputs, int frames) noexcept
{
    for (int done = 0; done < frames; done += longestPart)
        renderPart (outputs, done, std::min (longestPart, frames - done));
}

void Player::renderPart (const PlayerOutputs& outputs, int offset, int frames) noexcept
{
    std::array<float*, microphoneCount> to{};
    for (std::size_t m = 0; m < to.size(); ++m)
        to[m] = heard[m].data();
    drum->process (to.data(), frames);

    const bool isInPlace = ! roomFader.isSilent(), isStereo = outputs.right != nullptr;
    if (isInPlace)
        roomFader.process (heard.back().data(), placeLeft.data(), isStereo ? placeRight.data() : nullptr, frames);

    for (int i = 0; i < frames; ++i)
    {
        const auto gain = output.next() * choked.next() * bypassed.next();
        float left = 0.0f, right = 0.0f, mix = 0.0f;

        for (std::size_t m = 0; m < channels.size(); ++m)
        {
            auto& channel = channels[m];
            const auto sample = heard[m][static_cast<std::size_t> (i)] * channel.level.next();
            left += sample * channel.left.next();
            right += sample * channel.right.next();
            mix += sample;
            if (auto* out = outputs.microphones[m])
                out[offset + i] = belowCeiling (gain * sample);
        }

        recording.add (mix);
        const auto close = microphonesGain.next();
        left *= close;
        right *= close;
        mix *= close;

        if (const auto far = placeGain.next(); isInPlace)
        {
            left += far * placeLeft[static_cast<std::size_t> (i)];
            right += isStereo ? far * placeRight[static_cast<std::size_t> (i)] : 0.0f;
            mix += far * placeLeft[static_cast<std::size_t> (i)];
        }

        if (isStereo)
        {
            outputs.left[offset + i] = belowCeiling (gain * left);
            outputs.right[offset + i] = belowCeiling (gain * right);
        }
        else if (outputs.left != nullptr)
            outputs.left[offset + i] = belowCeiling (gain * mix);
    }
}

} // namespace plugin
