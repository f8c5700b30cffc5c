#include "Midi.h"

#include "Score/MidiNotes.h"

namespace plugin
{
namespace
{
constexpr int noteOff = 0x80, noteOn = 0x90, keyPressure = 0xA0, controlChange = 0xB0, channelPressure = 0xD0;
constexpr double longestSweep = 30.0; // s, of a note that is held
constexpr int allSoundOff = 120, resetAllControllers = 121;

double shareOf (int sevenBits) noexcept
{
    return sevenBits / 127.0;
}

/** Notes without a position of their own; the others are centre, half way or edge. */
bool usesPlayersPosition (int note) noexcept
{
    return note == 38 || note == 40 || note == 22 || note == 21;
}

/** Side stick and acoustic snare of General MIDI, and the rimshot on 40, which is common practice. */
bool isKitsSnare (int note) noexcept
{
    return note == 37 || note == 38 || note == 40;
}

MidiAction readNote (int channel, int note, int velocity, const MidiChoices& choices) noexcept
{
    MidiAction action;

    if (channel == choices.tuningChannel)
    {
        action.kind = MidiAction::Kind::tune;
        action.note = note;
    }
    else if (note == chokeNote && choices.allStrokes)
        action.kind = MidiAction::Kind::choke;
    else if ((choices.allStrokes || isKitsSnare (note)) && score::strokeForNote (note, velocity, action.stroke, choices.hasBrush))
    {
        action.kind = MidiAction::Kind::strike;
        const bool isSweep = action.stroke.kind == engine::StrokeKind::sweep;
        action.usesPlayersPosition = usesPlayersPosition (note) && ! isSweep;
        action.stroke.sweepTime = longestSweep;
    }

    return action;
}

/** The end of a note. */
MidiAction releaseNote (int channel, int note, const MidiChoices& choices) noexcept
{
    auto action = readNote (channel, note, 1, choices);
    const bool isSweep = action.kind == MidiAction::Kind::strike && action.stroke.kind == engine::StrokeKind::sweep;
    action.kind = isSweep ? MidiAction::Kind::liftBrush : MidiAction::Kind::nothing;
    return action;
}

MidiAction readController (int controller, int value, const MidiChoices& choices) noexcept
{
    MidiAction action;
    action.amount = shareOf (value);

    if (controller > 0 && controller == choices.positionController)
        action.kind = MidiAction::Kind::position;
    else if (controller == pressureController)
        action.kind = MidiAction::Kind::pressure;
    else if (controller == allSoundOff)
        action.kind = MidiAction::Kind::silence;
    else if (controller == resetAllControllers)
        action.kind = MidiAction::Kind::resetControllers;

    return action;
}
} // namespace

MidiAction readMidi (const std::uint8_t* bytes, int size, const MidiChoices& choices) noexcept
{
    if (size < 2 || (bytes[1] & 0x80) != 0)
        return {};

    const int status = bytes[0] & 0xF0, channel = (bytes[0] & 0x0F) + 1, first = bytes[1];
    MidiAction action;

    if (status == channelPressure)
    {
        action.kind = MidiAction::Kind::pressure;
        action.amount = shareOf (first);
        return action;
    }

    if (size < 3 || (bytes[2] & 0x80) != 0)
        return {};

    const int second = bytes[2];

    switch (status)
    {
    case noteOn:
        return second > 0 ? readNote (channel, first, second, choices) : releaseNote (channel, first, choices);
    case noteOff:
        return releaseNote (channel, first, choices);
    case keyPressure:
        action.kind = MidiAction::Kind::pressure;
        action.amount = shareOf (second);
        return action;
    case controlChange:
        return readController (first, second, choices);
    default:
        return action;
    }
}

} // namespace plugin
