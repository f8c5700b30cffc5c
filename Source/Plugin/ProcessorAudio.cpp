// The audio thread's part of the processor.

#include "Processor.h"

#include "PatternBook.h"

namespace plugin
{

/** Puts a new model in place, if there is one, and returns the old one to the solver. */
void Processor::takeModel() noexcept
{
    if (auto* delivery = solver.models().take())
    {
        // A model for another sample rate is out of date: the rate changed meanwhile.
        if (delivery->model->setup().sampleRate == player.sampleRate())
            delivery->model = player.setModel (std::move (delivery->model));
        solver.models().giveBack (delivery);
    }
}

/** Begins the change to another room, if there is one; once that is over, returns the old one to the solver. */
void Processor::takeRoom() noexcept
{
    auto& room = player.room();
    if (room.isFading())
        return;

    if (roomOnItsWay != nullptr)
    {
        roomOnItsWay->room = room.takeFormer();
        solver.rooms().giveBack (roomOnItsWay.release());
    }

    auto* delivery = solver.rooms().take();
    if (delivery == nullptr)
        return;
    if (delivery->sampleRate != player.sampleRate())
        return solver.rooms().giveBack (delivery); // out of date: the rate changed meanwhile

    room.fadeTo (std::move (delivery->room));
    roomOnItsWay.reset (delivery);
}

/** In an offline render the audio thread waits for the solver, so that each change sounds at the sample where it is made. */
void Processor::catchUp()
{
    if (isNonRealtime())
        solver.waitUntilSolved();

    takeModel();
    takeRoom();
}

PlayerOutputs Processor::outputsOf (juce::AudioBuffer<float>& buffer, int offset) noexcept
{
    PlayerOutputs outputs;
    const auto channelOf = [&] (int bus, int channel) -> float*
    {
        if (bus >= getBusCount (false) || channel >= getChannelCountOfBus (false, bus))
            return nullptr;
        const auto index = getChannelIndexInProcessBlockBuffer (false, bus, channel);
        return index < buffer.getNumChannels() ? buffer.getWritePointer (index, offset) : nullptr;
    };

    outputs.left = channelOf (0, 0);
    outputs.right = channelOf (0, 1);
    for (int m = 0; m < microphoneCount; ++m)
        outputs.microphones[static_cast<std::size_t> (m)] = channelOf (m + 1, 0);
    return outputs;
}

void Processor::act (const MidiAction& action) noexcept
{
    switch (action.kind)
    {
    case MidiAction::Kind::strike:
        return player.strike (action.stroke, action.usesPlayersPosition);
    case MidiAction::Kind::liftBrush:
        return player.liftBrush();
    case MidiAction::Kind::choke:
        return player.choke();
    case MidiAction::Kind::silence:
        return player.silence();
    case MidiAction::Kind::position:
        return player.setPosition (action.amount);
    case MidiAction::Kind::pressure:
        return player.setPressure (action.amount);
    case MidiAction::Kind::resetControllers:
        return player.resetControllers();
    case MidiAction::Kind::tune:
        sound.setPlayedNote (action.note);
        return catchUp();
    case MidiAction::Kind::nothing:
        return;
    }
}

void Processor::playAuditions() noexcept
{
    engine::Stroke stroke;
    while (auditions.pop (stroke))
        player.strikeExactly (stroke);
}

/** Collects the pattern's strokes of this block in `due`. */
void Processor::schedulePattern (const Values& values, int frames) noexcept
{
    due.clear();
    const bool isPatternOn = isOn (values, Parameter::patternOn);

    if (isPatternOn && ! wasPatternOn)
        freeBeat = 0.0;
    wasPatternOn = isPatternOn;

    if (! isPatternOn)
        return;

    BlockTime time{ freeBeat, player.sampleRate() * 60.0 / static_cast<double> (valueOf (values, Parameter::patternTempo)) };

    if (isOn (values, Parameter::patternSynced))
    {
        const auto host = getPlayHead() != nullptr ? getPlayHead()->getPosition() : juce::nullopt;
        if (! host || ! host->getIsPlaying() || ! host->getPpqPosition() || ! host->getBpm() || *host->getBpm() < 1.0)
            return;
        time = { *host->getPpqPosition(), player.sampleRate() * 60.0 / *host->getBpm() };
    }
    else
        freeBeat += frames / time.samplesPerBeat;

    const auto& pattern = patternBook()[static_cast<std::size_t> (valueOf (values, Parameter::pattern))];
    playPattern (pattern, time, frames,
                 [&] (int sample, engine::Stroke stroke)
                 {
                     stroke.sweepTime *= time.samplesPerBeat / player.sampleRate(); // from beats
                     if (due.size() < due.capacity())
                         due.push_back ({ sample, stroke });
                 });
}

/** Copies the input to the listener. The input never reaches the output. */
void Processor::listen (const juce::AudioBuffer<float>& buffer) noexcept
{
    const auto channelOf = [&] (int channel) -> const float*
    {
        if (getBusCount (true) == 0 || channel >= getChannelCountOfBus (true, 0))
            return nullptr;
        const auto index = getChannelIndexInProcessBlockBuffer (true, 0, channel);
        return index < buffer.getNumChannels() ? buffer.getReadPointer (index) : nullptr;
    };

    if (const auto* left = channelOf (0))
        inputListener.hear (left, channelOf (1), buffer.getNumSamples());
}

void Processor::processBlock (juce::AudioBuffer<float>& buffer, juce::MidiBuffer& midi)
{
    const juce::ScopedNoDenormals noDenormals;
    const int frames = buffer.getNumSamples();
    blocks.fetch_add (1, std::memory_order_relaxed);
    listen (buffer);
    buffer.clear();

    if (! player.isReady() || playedRate.load (std::memory_order_relaxed) != player.sampleRate())
        return;

    catchUp();

    const auto values = sound.effective();
    player.setValues (values);

    if (shouldReset.exchange (false))
        player.silence();

    playAuditions();
    schedulePattern (values, frames);

    const MidiChoices choices{ juce::roundToInt (valueOf (values, Parameter::tuningChannel)),
                               valueOf (values, Parameter::strokeNotes) < 0.5f,
                               juce::roundToInt (valueOf (values, Parameter::positionController)), player.hasBrush() };
    auto message = midi.begin();
    const auto endOfMidi = midi.end();
    auto stroke = due.cbegin();

    for (int done = 0; done < frames;)
    {
        for (; message != endOfMidi && (*message).samplePosition <= done; ++message)
            act (readMidi ((*message).data, (*message).numBytes, choices));
        for (; stroke != due.cend() && stroke->sample <= done; ++stroke)
            player.strike (stroke->stroke, false);

        int next = frames;
        if (message != endOfMidi)
            next = std::min (next, (*message).samplePosition);
        if (stroke != due.cend())
            next = std::min (next, stroke->sample);

        player.render (outputsOf (buffer, done), next - done);
        done = next;
    }

    if (const auto outputs = outputsOf (buffer, 0); outputs.left != nullptr)
        clips.addTo (outputs.left, outputs.right, frames);

    midi.clear();
}

} // namespace plugin
